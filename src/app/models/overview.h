#pragma once

#include "app/models/found.h"
#include "core/day.h"

#include <string>

/// The line on top.
namespace mellowbin::app {

/// The line on top, and what waits on each screen.
struct Overview {
    Day today;
    std::string clock; ///< "Wed 25 Nov 2026, 04:10"
    std::string plant;
    std::string person;
    std::string book;
    std::string running;   ///< what runs in the background; empty: nothing
    std::string elsewhere; ///< what another station did last: "04:12, Ines: Lot W24-101: released -> held"
    Found found;           ///< by the search, till one is chosen
    int to_judge = 0;
    int short_runs = 0;
    int past_best = 0;          ///< lots in stock that are past their best
    int batches_today = 0;      ///< still to be mixed
    int unconfirmed_limits = 0; ///< of the markets that the products are sold in
};

class PlanWork;
struct PlanModel;
struct ReadinessModel;
struct SettingsModel;
struct Station;

/// What waits is counted from what the screens show.
Overview make_overview(const Station& station, const PlanWork& work, const PlanModel& plan,
                       const ReadinessModel& readiness, const SettingsModel& settings);

} // namespace mellowbin::app
