#pragma once

#include "app/models/journal.h"
#include "db/past_store.h"

#include <vector>

namespace mellowbin::app {

/// A page of the lots that were used up or rejected.
struct PastLotsModel {
    PastLotQuery query; ///< what was asked for
    PastLots page;
};

/// A page of the journal, newest first.
struct JournalModel {
    std::vector<JournalRow> rows;
    bool has_newer = false;
    bool has_older = false;
};

struct Station;

PastLotsModel make_past_lots(const Station& station, const PastLotQuery& query);
/// The newest lines, or the newest before that one.
JournalModel make_journal(const Station& station, std::int64_t before, int count);

} // namespace mellowbin::app
