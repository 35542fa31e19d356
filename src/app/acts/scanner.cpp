#include "app/acts/scanner.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/scanner.h"

namespace mellowbin::app {
namespace {

void show(State& state) { state.settings.scanner.heard = state.scanner; }

} // namespace

Result<Told> carry_out(State& state, const JudgeTestScan& act) {
    const auto& settings = state.book.settings;
    auto verdict =
        exchange::judge_test_scan(act.scan, scanner_setup(settings), longest_scanner_gap(settings));
    state.scanner.lines = std::move(verdict.lines);
    state.scanner.separator = std::move(verdict.separator);
    ++state.scanner.judged;
    show(state);
    return Told{};
}

Result<Told> carry_out(State& state, const TellOfPort& act) {
    state.scanner.port_words = act.words;
    state.scanner.port_is_well = act.is_well;
    show(state);
    if (!act.is_news)
        return Told{};
    if (!act.is_well)
        return Refusal{"Scanner", act.words, ""};
    return Told{"Scanner: " + act.words};
}

} // namespace mellowbin::app
