#include "app/acts/looking.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "db/lot_store.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace mellowbin::app {
namespace {

std::string lower(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return out;
}

/// The run of this code, or the next of a product of that name.
std::optional<Run> meant_run(const State& state, const std::string& words) {
    if (const auto run = RunStore(*state.connection).find(words))
        return run;
    const std::string wanted = lower(words);
    for (const auto& run : state.book.runs) {
        const Product* product = state.book.product(run.product);
        const bool is_meant =
            lower(run.code) == wanted ||
            (product && run.day >= state.today() && lower(product->name).find(wanted) != std::string::npos);
        if (is_meant)
            return run;
    }
    return {};
}

} // namespace

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

Result<Told> carry_out(State& state, const PutAwayNotice&) {
    const auto number = state.notice.number;
    state.notice = {};
    state.notice.number = number; // it counts up for good: a view waits for the one after the last it saw
    return Told{""};
}

Result<Told> carry_out(State& state, const Search& intent) {
    if (intent.words.empty())
        return Told{""};
    if (const auto lot = LotStore(*state.connection).meant(intent.words)) {
        state.opened_lot = *lot;
        state.book.call_up(*state.connection, *lot);
        return Told{fmt::format("Lot {}", state.book.lot(*lot)->code), Touched::opened_lot, "", {}, "Lots"};
    }
    if (const auto run = meant_run(state, intent.words)) {
        state.opened_run = run->id;
        const Product* product = state.book.product(run->product);
        return Told{
            fmt::format("Run {}: {} on {}", run->code, product ? product->name : "?", short_day(run->day)),
            Touched::opened_run,
            "",
            {},
            "Mixer"};
    }
    return Refusal{"Search", fmt::format("nothing is called \"{}\"", intent.words),
                   "Try a lot number, a mill, a product or a run"};
}

} // namespace mellowbin::app
