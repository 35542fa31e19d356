#include "db/journal_store.h"

#include <fmt/format.h>

#include <set>

namespace mellowbin {
namespace {

std::vector<JournalLine> lines_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<JournalLine> lines;
    connection.query(
        fmt::format("SELECT id, at, who, intent, subject, words, detail FROM journal {}", clause), parameters,
        [&](const Row& row) {
            lines.push_back({row.integer(0), row.instant(1), row.words(2), row.words(3), row.words(4),
                             row.words(5), row.words(6)});
        });
    return lines;
}

} // namespace

std::int64_t JournalStore::version() const {
    std::int64_t version = 0;
    connection_.query("SELECT COALESCE(MAX(id), 0) FROM journal", {},
                      [&](const Row& row) { version = row.integer(0); });
    return version;
}

Changes JournalStore::since(std::int64_t line) const {
    Changes changes;
    changes.version = line;
    changes.lines = lines_where(connection_, "WHERE id > $1 ORDER BY id", {line});
    std::set<std::int64_t> silent;
    for (const auto& one : changes.lines) {
        changes.version = one.id;
        silent.insert(one.id);
    }
    std::set<RecordRef> records;
    auto at = changes.lines.begin();
    connection_.query("SELECT line_id, kind, number, is_subject FROM journal_record WHERE line_id > $1 "
                      "ORDER BY line_id",
                      {line}, [&](const Row& row) {
                          const RecordRef record{row.key(1, record_kind_from_key), row.integer(2)};
                          records.insert(record);
                          silent.erase(row.integer(0));
                          while (at != changes.lines.end() && at->id < row.integer(0))
                              ++at;
                          if (at != changes.lines.end() && at->id == row.integer(0) && row.integer(3) != 0)
                              at->about = record;
                      });
    changes.records.assign(records.begin(), records.end());
    changes.is_known = silent.empty();
    return changes;
}

std::vector<JournalLine> JournalStore::newest(int count) const {
    return lines_where(connection_, "ORDER BY id DESC LIMIT $1", {count});
}

std::vector<JournalLine> JournalStore::before(std::int64_t line, int count) const {
    return lines_where(connection_, "WHERE id < $1 ORDER BY id DESC LIMIT $2", {line, count});
}

std::vector<JournalLine> JournalStore::about(RecordRef record) const {
    return lines_where(connection_,
                       "WHERE id IN (SELECT line_id FROM journal_record WHERE kind = $1 AND number = $2 AND "
                       "is_subject = 1) ORDER BY id",
                       {key_of(record.kind), record.number});
}

} // namespace mellowbin
