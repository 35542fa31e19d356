#include "app/book/setup.h"

#include "db/connection.h"
#include "db/sqlite_connection.h"

namespace mellowbin::app {

std::unique_ptr<Connection> open_book(const AppSetup& setup) {
    if (setup.open)
        return setup.open(setup.book, setup.progress);
    return std::make_unique<SqliteConnection>(setup.book, built_in_migrations(), setup.progress);
}

} // namespace mellowbin::app
