#include "app/models/lot_history.h"

#include "app/book/station.h"
#include "db/journal_store.h"

namespace mellowbin::app {

std::vector<JournalRow> lot_history(const Station& s, LotId lot) {
    std::vector<JournalRow> rows;
    for (const auto& line : JournalStore(*s.connection).about(record_of(lot)))
        rows.push_back(journal_row(s, line));
    return rows;
}

} // namespace mellowbin::app
