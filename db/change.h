#pragma once

#include "db/connection.h"
#include "db/record.h"

#include <exception>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace mellowbin {

/// One line of the journal: who did what to which record, in words.
struct JournalLine {
    std::int64_t id = 0; ///< in the book; given when written
    Instant at;
    std::string who;
    std::string intent;                  ///< key of the act: "release_lot"
    std::string subject;                 ///< what it is about, in words: "lot W24-118"
    std::string words;                   ///< one sentence for a person
    std::string detail;                  ///< what was typed or computed, in more words; may be empty
    std::optional<RecordRef> about = {}; ///< the record it is about, where it is one

    friend bool operator==(const JournalLine&, const JournalLine&) = default;
};

/// Another station wrote to the book since the decision that this change carries out was made: look again and
/// decide anew. Nothing was written.
class BookMoved : public std::exception {
public:
    [[nodiscard]] const char* what() const noexcept override { return "the book changed meanwhile"; }
};

/// A change of the book together with its journal line: the stores' writing functions ask for one, so that
/// neither can be written without the other. They say which records they wrote, and the journal keeps that.
/// Leaving without commit() leaves nothing behind.
class Change {
public:
    /// Opens the transaction. Throws BookFault::busy. The line may still be filled in through journal_line().
    Change(Connection& connection, JournalLine line);
    /// The same for a decision made on the book as of this line of its journal: with the writing place held,
    /// throws BookMoved when lines were written since.
    Change(Connection& connection, JournalLine line, std::int64_t decided_on);

    [[nodiscard]] JournalLine& journal_line() { return lines_.front(); }
    /// A further line, of a change that is about several records.
    void also(JournalLine line) { lines_.push_back(std::move(line)); }
    /// A record was written, or what belongs to it.
    void touches(RecordRef record) { touched_.insert(record); }

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
    std::set<RecordRef> touched_;
    bool is_refused_ = false;
};

} // namespace mellowbin
