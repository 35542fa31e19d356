#pragma once

#include "app/book/clock.h"
#include "db/progress.h"

#include <functional>
#include <memory>
#include <string>

namespace mellowbin {
class Connection;
}

namespace mellowbin::app {

struct AppSetup {
    std::string book; ///< path, or ":memory:"
    std::string person;
    Clock clock;
    Progress progress = {}; ///< hears how far the book is brought to its present form; may be empty
    /// How the book's engine is reached; empty: a file on this machine.
    std::function<std::unique_ptr<Connection>(const std::string& book, const Progress& progress)> open = {};
    std::string station = {}; ///< how this machine is called; empty: as station_name() says
};

/// MELLOWBIN_STATION, else the machine's own name; empty where it has none.
std::string station_name();

/// Opens the book as it is set up to be. Throws BookError.
std::unique_ptr<Connection> open_book(const AppSetup& setup);

} // namespace mellowbin::app
