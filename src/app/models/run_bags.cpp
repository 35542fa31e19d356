#include "app/models/run_bags.h"

#include "app/book/book.h"
#include "app/book/settings.h"
#include "app/book/station.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// A batch of this number that was taken back: what was scanned for it says nothing of the next one.
std::optional<Instant> taken_back(const Book& book, RunId run, int batch) {
    std::optional<Instant> last;
    for (const Batch* one : book.batches_of(run))
        if (one->number == batch && one->is_countered)
            last = one->at;
    return last;
}

} // namespace

dough::BagsScanned bags_of(const Station& s, RunId run, int batch, const Result<dough::Card>& card) {
    dough::BagsScanned bags;
    bags.is_asked = Choices(s.book.settings).is_yes("scan_bags");
    const auto since = taken_back(s.book, run, batch);
    const auto scans = s.book.scans_of(run, batch);
    BagScanId last_right;
    for (const BagScan* scan : scans) {
        if (!scan->lot || (since && scan->at <= *since))
            continue;
        bags.right.push_back(*scan->lot);
        last_right = scan->id;
    }
    const bool has_all =
        card && std::all_of(card->flour.begin(), card->flour.end(), [&](const dough::CardFlour& one) {
            return std::find(bags.right.begin(), bags.right.end(), one.lot) != bags.right.end();
        });
    for (const BagScan* scan : scans) {
        const bool is_open = !scan->lot && scan->cleared_by.empty() && !(since && scan->at <= *since);
        if (is_open && !(has_all && last_right > scan->id))
            bags.wrong.push_back(
                {scan->code,
                 fmt::format("{} by {}", s.setup.clock.in_words(scan->at, s.today()), scan->who)});
    }
    return bags;
}

} // namespace mellowbin::app
