#include "app/acts/looking.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"

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

/// The lot a person means by these words: its whole number first, then any that contains them, then its mill.
const Lot* meant_lot(const Book& book, const std::string& words) {
    const std::string wanted = lower(words);
    for (const auto& lot : book.lots)
        if (lower(lot.code) == wanted)
            return &lot;
    for (auto lot = book.lots.rbegin(); lot != book.lots.rend(); ++lot)
        if (lower(lot->code).find(wanted) != std::string::npos)
            return &*lot;
    for (auto lot = book.lots.rbegin(); lot != book.lots.rend(); ++lot) {
        const Mill* mill = book.mill(lot->mill);
        if (mill && lower(mill->name).find(wanted) != std::string::npos)
            return &*lot;
    }
    return nullptr;
}

} // namespace

Result<Told> carry_out(State& state, const OpenLot& intent) {
    state.opened_lot = intent.lot;
    return Told{"", Touched::opened_lot};
}

Result<Told> carry_out(State& state, const ShowAsOf& intent) {
    state.as_of = intent.day;
    return Told{"", Touched::as_of};
}

Result<Told> carry_out(State& state, const OpenRun& intent) {
    state.opened_run = intent.run;
    return Told{"", Touched::opened_run};
}

Result<Told> carry_out(State& state, const ShowPlan& intent) {
    state.plan_from = intent.from;
    state.plan_days = std::clamp(intent.days, 1, 56);
    return Told{"", Touched::plan_span};
}

Result<Told> carry_out(State& state, const PutAwayNotice&) {
    const auto number = state.notice.number;
    state.notice = {};
    state.notice.number = number; // it counts up for good: a view waits for the one after the last it saw
    return Told{"", Touched::nothing};
}

Result<Told> carry_out(State& state, const Search& intent) {
    if (intent.words.empty())
        return Told{"", Touched::nothing};
    if (const Lot* lot = meant_lot(state.book, intent.words)) {
        state.opened_lot = lot->id;
        return Told{fmt::format("Lot {}", lot->code), Touched::opened_lot, "", {}, "Lots"};
    }
    const std::string wanted = lower(intent.words);
    for (const auto& run : state.book.runs) {
        const Product* product = state.book.product(run.product);
        const bool is_meant =
            lower(run.code) == wanted ||
            (product && run.day >= state.today() && lower(product->name).find(wanted) != std::string::npos);
        if (!is_meant)
            continue;
        state.opened_run = run.id;
        return Told{
            fmt::format("Run {}: {} on {}", run.code, product ? product->name : "?", short_day(run.day)),
            Touched::opened_run,
            "",
            {},
            "Mixer"};
    }
    return Refusal{"Search", fmt::format("nothing is called \"{}\"", intent.words),
                   "Try a lot number, a mill, a product or a run"};
}

} // namespace mellowbin::app
