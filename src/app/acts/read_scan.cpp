#include "app/acts/read_scan.h"

#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/acts/scans.h"
#include "app/acts/state.h"

#include <chrono>

namespace mellowbin::app {
namespace {

using At = ReadScan::At;

constexpr std::chrono::seconds twice_within{5}; // a choice

/// The same bytes, so soon that the trigger was pulled twice.
bool is_again(const State& state, const ReadScan& act) {
    const auto& before = state.scanned;
    const bool is_question =
        act.reading == ReadLabel::Reading::asked && act.plain == ReadLabel::Plain::asked_about;
    return is_question && !before.last.empty() && before.last == act.scan &&
           state.setup.clock.now() - before.last_at <= twice_within;
}

Result<Told> read_at(State& state, const ReadScan& act) {
    switch (act.at) {
    case At::intake:
        return carry_out(state, ReadLabel{act.scan, act.reading, act.plain});
    case At::mixer:
        if (!act.run.is_known())
            return Refusal{"Bag", "no run is chosen, so there is no card to hold it against",
                           "Choose the run, then scan the bag again"};
        return carry_out(state, ScanBag{act.run, act.scan});
    case At::behind_a_question:
        return Refusal{"Scan", "a question stands open, so nothing was read", "Answer it, then scan again"};
    case At::anywhere:
        break;
    }
    return carry_out(state, Search{act.scan});
}

} // namespace

Result<Told> carry_out(State& state, const ReadScan& act) {
    const bool again = is_again(state, act);
    if (again && act.at == At::intake)
        return Told{"The same label was scanned twice: it counts once"};
    auto told = read_at(state, act);
    if (!told)
        return told;
    if (again && !told->words.empty())
        told->words += "; scanned twice";
    state.scanned.last = act.scan;
    state.scanned.last_at = state.setup.clock.now();
    return told;
}

} // namespace mellowbin::app
