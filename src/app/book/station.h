#pragma once

#include "app/book/beliefs.h"
#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/book/setup.h"
#include "app/book/subject.h"
#include "db/change.h"
#include "db/connection.h"

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>

namespace mellowbin::app {

/// The book at this station, who is at it, and what is made of the book: all that a read-model is made from.
struct Station {
    AppSetup setup;
    std::unique_ptr<Connection> connection;
    Book book;
    Estimates estimates;
    Doughs doughs;
    std::uint64_t book_changes = 0; ///< that this program saw since the book was opened
    /// What another station changed last of a record, until it is looked at here.
    std::map<RecordRef, JournalLine> elsewhere;
    std::optional<JournalLine> last_elsewhere;

    [[nodiscard]] Day today() const { return setup.clock.today(); }
    /// Others wrote this.
    void remember(const Changes& changes);
    void look_at(RecordRef record) { elsewhere.erase(record); }
    /// "04:12, Ines", or empty.
    [[nodiscard]] std::string changed_elsewhere(RecordRef record) const;
    /// The head of a journal line: now, by this person.
    [[nodiscard]] JournalLine journal_line(std::string intent, Subject subject, std::string words) const;
    /// A change that was decided on by what this station knows of the book. Throws BookMoved when that is not
    /// what the book holds any more: then nothing is written, and it is decided anew.
    [[nodiscard]] Change change(std::string intent, Subject subject, std::string words);
};

} // namespace mellowbin::app
