#pragma once

#include "db/change.h"

#include <vector>

namespace mellowbin {

/// What was written to the book since a line of its journal.
struct Changes {
    std::int64_t version = 0;       ///< the book's now
    bool is_known = true;           ///< false: a line does not say which records it wrote
    std::vector<JournalLine> lines; ///< oldest first
    std::vector<RecordRef> records; ///< each once
};

/// Reads the journal; only a Change writes it.
class JournalStore {
public:
    explicit JournalStore(Connection& connection) : connection_(connection) {}

    /// The greatest line's number: every change writes a line, so it tells one state of the book from the
    /// next. 0 for a book in which nothing was done.
    [[nodiscard]] std::int64_t version() const;
    [[nodiscard]] Changes since(std::int64_t line) const;

    [[nodiscard]] std::vector<JournalLine> newest(int count) const; ///< newest first
    /// The newest of the lines before that one.
    [[nodiscard]] std::vector<JournalLine> before(std::int64_t line, int count) const;
    [[nodiscard]] std::vector<JournalLine> about(RecordRef record) const; ///< oldest first

private:
    Connection& connection_;
};

} // namespace mellowbin
