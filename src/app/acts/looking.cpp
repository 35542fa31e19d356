#include "app/acts/looking.h"

#include "app/acts/instant_typed.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/decimal.h"
#include "core/typed_text.h"

#include <algorithm>

namespace mellowbin::app {

Result<Told> carry_out(State& state, const OpenLot& intent) {
    state.opened_lot = intent.lot;
    state.look_at(record_of(intent.lot));
    return Told{"", Touched::opened_lot};
}

Result<Told> carry_out(State& state, const ShowAsOf& intent) {
    state.as_of = intent.day;
    return Told{"", Touched::as_of};
}

Result<Told> carry_out(State& state, const OpenRun& intent) {
    state.opened_run = intent.run;
    state.look_at(record_of(intent.run));
    return Told{"", Touched::opened_run};
}

Result<Told> carry_out(State& state, const ShowPlan& intent) {
    state.plan_from = intent.from;
    state.plan_days = std::clamp(intent.days, 1, 56);
    return Told{"", Touched::plan_span};
}

Result<Told> carry_out(State& state, const ShowStock& intent) {
    if (trimmed(intent.at).empty()) {
        state.stock = StockQuery{};
        return Told{"", Touched::traced};
    }
    const auto at = read_instant(state.setup.clock, "At", intent.at);
    if (!at)
        return at.refusals();
    state.stock = StockQuery{*at};
    return Told{"", Touched::traced};
}

Result<Told> carry_out(State& state, const PutAwayStock&) {
    state.stock.reset();
    return Told{"", Touched::traced};
}

Result<Told> carry_out(State& state, const ShowSiloDraw& intent) {
    const auto kg = read_required_decimal("Draw", intent.kg, {0.1, 1'000'000, "kg"});
    if (!kg)
        return kg.refusals();
    state.silo_draw = to_grams(Kilograms{*kg});
    return Told{"", Touched::traced};
}

Result<Told> carry_out(State& state, const ShowPastLots& intent) {
    state.past_lots = intent.query;
    if (state.past_lots) {
        state.past_lots->from = std::max(0, state.past_lots->from);
        state.past_lots->count = std::clamp(state.past_lots->count, 1, 500);
    }
    return Told{"", Touched::past_lots};
}

Result<Told> carry_out(State& state, const ShowJournal& intent) {
    state.journal_before = std::max<std::int64_t>(0, intent.before);
    return Told{"", Touched::past_journal};
}

Result<Told> carry_out(State&, const TellOfBook& intent) { return Told{intent.words}; }

Result<Told> carry_out(State& state, const PutAwayNotice&) {
    const auto number = state.notice.number;
    state.notice = {};
    state.notice.number = number; // it counts up for good: a view waits for the one after the last it saw
    return Told{""};
}

} // namespace mellowbin::app
