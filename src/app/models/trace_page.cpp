#include "app/models/trace_page.h"

#include "app/book/station.h"
#include "app/models/looked_at.h"
#include "app/models/trace_words.h"
#include "db/drill_store.h"
#include "db/run_store.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

constexpr int drills_shown = 20;
constexpr Days dispatches_back{14};

} // namespace

TracePage make_trace_page(const Station& s, const LookedAt& looked_at) {
    TracePage page;
    if (looked_at.traced) {
        page.trace = make_trace(s, *looked_at.traced);
        page.summary = summary_of(*page.trace);
    }
    page.drills = DrillStore(*s.connection).newest(drills_shown);
    page.running = looked_at.drill;
    page.silos = make_silos(s, looked_at.silo_draw);
    if (looked_at.stock)
        page.stock = make_stock(s, looked_at.stock->at);
    page.dispatches = dispatches_of(s, {s.today() - dispatches_back, s.today(), {}, ""});
    std::reverse(page.dispatches.begin(), page.dispatches.end());
    return page;
}

std::vector<TraceDispatch> dispatches_of(const Station& s, const DispatchQuery& query) {
    std::vector<TraceDispatch> rows;
    for (auto& one : DispatchStore(*s.connection).of(query)) {
        const auto run = RunStore(*s.connection).find(one.run);
        const Product* product = s.book.product(one.product);
        rows.push_back({std::move(one), run ? run->code : "?", product ? product->name : "?", {}});
    }
    return rows;
}

} // namespace mellowbin::app
