#pragma once

#include "db/sqlite_connection.h"

#include <memory>
#include <string>
#include <vector>

namespace mellowbin::tests {

/// How a book answers what is asked of it: the steps of the engine's plans that walk through a whole table or
/// index, each with the question. Listened to while is_listening.
struct Walks {
    bool is_listening = false;
    int questions = 0;
    std::vector<std::string> steps;

    /// Those that may be: of a partial index, which holds only what is still open.
    [[nodiscard]] std::vector<std::string> without(const std::string& partial_index) const;
};

/// A book that is listened to, for AppSetup::open. `walks` outlives the connection.
std::unique_ptr<Connection> open_explained(Walks& walks, const std::string& book);

} // namespace mellowbin::tests
