#pragma once

#include "app/book/beliefs.h"
#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/book/setup.h"
#include "db/change.h"
#include "db/connection.h"

#include <cstdint>
#include <memory>
#include <string>

namespace mellowbin::app {

/// The book at this station, who is at it, and what is made of the book: all that a read-model is made from.
struct Station {
    AppSetup setup;
    std::unique_ptr<Connection> connection;
    Book book;
    Estimates estimates;
    Doughs doughs;
    std::uint64_t book_changes = 0; ///< by this program since the book was opened

    [[nodiscard]] Day today() const { return setup.clock.today(); }
    /// The head of a journal line: now, by this person.
    [[nodiscard]] JournalLine journal_line(std::string intent, std::string subject, std::string words) const;
};

} // namespace mellowbin::app
