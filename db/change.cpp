#include "db/change.h"

#include <stdexcept>

namespace mellowbin {

Change::Change(Connection& connection, JournalLine line)
    : transaction_(connection), lines_{std::move(line)} {}

void Change::commit() {
    if (is_refused_)
        throw std::logic_error("a change of which a part was refused cannot be committed");
    for (const auto& line : lines_) {
        connection().execute(
            "INSERT INTO journal (id, at, who, intent, subject, words, detail) "
            "VALUES ((SELECT COALESCE(MAX(id), 0) + 1 FROM journal), $1, $2, $3, $4, $5, $6)",
            {line.at, line.who, line.intent, line.subject, line.words, line.detail});
    }
    transaction_.commit();
}

Refusals Change::refuse(Refusals refusals) {
    is_refused_ = true;
    return refusals;
}

} // namespace mellowbin
