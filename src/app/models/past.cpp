#include "app/models/past.h"

#include "app/book/station.h"
#include "db/journal_store.h"

namespace mellowbin::app {

PastLotsModel make_past_lots(const Station& s, const PastLotQuery& query) {
    return {query, PastStore(*s.connection).lots(query)};
}

JournalModel make_journal(const Station& s, std::int64_t before, int count) {
    const JournalStore journal(*s.connection);
    // One more than is shown tells whether there is more.
    const auto lines = before > 0 ? journal.before(before, count + 1) : journal.newest(count + 1);
    JournalModel model;
    model.has_newer = before > 0;
    model.has_older = lines.size() > static_cast<std::size_t>(count);
    for (const auto& line : lines)
        if (model.rows.size() < static_cast<std::size_t>(count))
            model.rows.push_back(journal_row(s, line));
    return model;
}

} // namespace mellowbin::app
