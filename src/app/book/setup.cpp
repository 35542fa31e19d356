#include "app/book/setup.h"

#include "db/connection.h"
#include "db/sqlite_connection.h"

#include <array>
#include <cstdlib>
#include <unistd.h>

namespace mellowbin::app {

std::string station_name() {
    if (const char* named = std::getenv("MELLOWBIN_STATION"); named && *named != '\0')
        return named;
    std::array<char, 256> name{};
    return ::gethostname(name.data(), name.size() - 1) == 0 ? std::string(name.data()) : std::string();
}

std::unique_ptr<Connection> open_book(const AppSetup& setup) {
    if (setup.open)
        return setup.open(setup.book, setup.progress);
    return std::make_unique<SqliteConnection>(setup.book, built_in_migrations(), setup.progress);
}

} // namespace mellowbin::app
