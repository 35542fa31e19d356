#pragma once

#include "db/sqlite_connection.h"

#include <functional>
#include <memory>
#include <string>

namespace mellowbin::tests {

/// When a connection to a book fails, as a disk does: from the moment it is told on, until it is told to
/// stop.
struct Disk {
    enum class Fails {
        never,
        in_a_statement,       ///< writing, before the commit
        before_it_is_written, ///< in the commit, of which nothing reaches the book
        after_it_is_written,  ///< in the commit, which reaches the book whole
        reading,              ///< after the next commit, again and again
        reading_once,         ///< after the next commit
    };
    Fails fails = Fails::never;
    bool opens = true; ///< whether the book can be opened once it has failed
    bool has_failed = false;
    int opened = 0; ///< how often the book was
};

/// A book on such a disk, for AppSetup::open. The disk outlives the connection.
std::unique_ptr<Connection> open_on(Disk& disk, const std::string& book);

} // namespace mellowbin::tests
