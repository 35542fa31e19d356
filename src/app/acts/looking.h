#pragma once

#include "app/acts/act.h"
#include "core/plant.h"
#include "db/past_store.h"

#include <cstdint>
#include <optional>
#include <string>

/// What is looked at: changes no book.
namespace mellowbin::app {

struct OpenLot {
    LotId lot;
};
struct ShowAsOf {
    Day day; ///< readiness as of this day
};
struct OpenRun {
    RunId run; ///< its card on the Mixer screen
};
struct ShowPlan {
    Day from;
    int days = 7;
};
/// A lot's number, also scanned, a mill, a product or a run: what alone is meant is opened, of several a
/// person chooses.
struct Search {
    std::string words;
};
/// One of what a search found.
struct OpenFound {
    LotId lot; ///< or
    RunId run;
};
struct PutAwayFound {};
/// What lies where; with nothing typed, now. "2026-11-20 08:00" by the plant's clock, or a day: at its end.
struct ShowStock {
    std::string at;
};
struct PutAwayStock {};
/// What a draw of so much from each silo would hold.
struct ShowSiloDraw {
    std::string kg;
};
/// Lots that were used up or rejected, a page of them; or none of them any more.
struct ShowPastLots {
    std::optional<PastLotQuery> query;
};
/// The page of the journal before that line; 0: the newest.
struct ShowJournal {
    std::int64_t before = 0;
};
struct PutAwayNotice {};
/// Which book is open, for the line of what was done.
struct TellOfBook {
    std::string words;
};

Result<Told> carry_out(State& state, const OpenLot& act);
Result<Told> carry_out(State& state, const ShowAsOf& act);
Result<Told> carry_out(State& state, const OpenRun& act);
Result<Told> carry_out(State& state, const ShowPlan& act);
Result<Told> carry_out(State& state, const Search& act);
Result<Told> carry_out(State& state, const OpenFound& act);
Result<Told> carry_out(State& state, const PutAwayFound& act);
Result<Told> carry_out(State& state, const ShowStock& act);
Result<Told> carry_out(State& state, const PutAwayStock& act);
Result<Told> carry_out(State& state, const ShowSiloDraw& act);
Result<Told> carry_out(State& state, const ShowPastLots& act);
Result<Told> carry_out(State& state, const ShowJournal& act);
Result<Told> carry_out(State& state, const PutAwayNotice& act);
Result<Told> carry_out(State& state, const TellOfBook& act);

} // namespace mellowbin::app
