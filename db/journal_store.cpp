#include "db/journal_store.h"

#include <fmt/format.h>

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

std::vector<JournalLine> JournalStore::newest(int count) const {
    return lines_where(connection_, "ORDER BY id DESC LIMIT $1", {count});
}

std::vector<JournalLine> JournalStore::about(std::string_view subject) const {
    return lines_where(connection_, "WHERE subject = $1 ORDER BY id", {subject});
}

} // namespace mellowbin
