#pragma once

#include "db/connection.h"

#include <string>
#include <vector>

namespace mellowbin {

/// One line of the journal: who did what to which record, in words.
struct JournalLine {
    std::int64_t id = 0; ///< in the book; given when written
    Instant at;
    std::string who;
    std::string intent;  ///< key of the act: "release_lot"
    std::string subject; ///< the record it is about: "lot W24-118"
    std::string words;   ///< one sentence for a person
    std::string detail;  ///< what was typed or computed, in more words; may be empty

    friend bool operator==(const JournalLine&, const JournalLine&) = default;
};

/// A change of the book together with its journal line: the stores' writing functions ask for one, so that
/// neither can be written without the other. Leaving without commit() leaves nothing behind.
class Change {
public:
    /// Opens the transaction. Throws BookFault::busy. The line may still be filled in through journal_line().
    Change(Connection& connection, JournalLine line);

    [[nodiscard]] JournalLine& journal_line() { return lines_.front(); }
    /// A further line, of a change that is about several records.
    void also(JournalLine line) { lines_.push_back(std::move(line)); }

    /// Writes the journal's lines and commits; Connection::last_change() then says what became of it,
    /// whether this returns or throws. A change in which a store refused something cannot be committed: that
    /// is our mistake, std::logic_error.
    void commit();

    [[nodiscard]] Connection& connection() { return transaction_.connection(); }
    /// A store refused a part of this change, so that none of it may stay. Hands the refusals on.
    Refusals refuse(Refusals refusals);
    Refusals refuse(Refusal refusal) { return refuse(Refusals{std::move(refusal)}); }

private:
    std::int64_t write_journal(); ///< the first line's number

    Transaction transaction_;
    std::vector<JournalLine> lines_;
    bool is_refused_ = false;
};

} // namespace mellowbin
