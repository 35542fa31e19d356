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
    std::vector<std::string> searches; ///< the steps that look something up: "SEARCH lot USING INDEX …"

    /// But those by a partial index, which holds only what is still open.
    [[nodiscard]] std::vector<std::string> without(const std::string& partial_index) const;
    /// Of the searches by a mill those that are not by days as well: they cost all years of it. Those by a
    /// partial index of what is open may be.
    [[nodiscard]] std::vector<std::string> of_all_years() const;
};

/// A book that is listened to, for AppSetup::open. `walks` outlives the connection.
std::unique_ptr<Connection> open_explained(Walks& walks, const std::string& book);

} // namespace mellowbin::tests
