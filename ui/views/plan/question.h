#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/form.h"
#include "ui/views/plan/moves.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// What is asked before a run, a delivery or a reservation is changed. Stays open, with what was typed, until
/// it is done or given up.
struct PlanQuestion {
    enum class Deed { change_run, drop_run, it_came, called_off, end_reservation };
    Deed deed{};
    RunId run;
    ExpectedId delivery;
    ReservationId reservation;
    std::string words; ///< what it is about, as the screen said it

    int line = -1;                            ///< index into the model's line names
    std::string day, batches, place;          ///< of a run, as typed
    std::string was_line, was_day, was_place; ///< of the run, when it was asked
    std::string lot, reason;                  ///< as typed
    Asked asked;

    static PlanQuestion change(const app::PlannedRun& run, const app::PlanModel& model);
    static PlanQuestion drop(const app::PlannedRun& run);
    /// The name of the line chosen; empty: none.
    [[nodiscard]] std::string line_in(const app::PlanModel& model) const;
};

/// Draws the question over the screen, and appends what it was about when the person says so. `tried` says
/// whether a run is moved in the book or only supposed.
void draw(std::optional<PlanQuestion>& question, Tried tried, const app::PlanModel& model,
          const app::LotsModel& lots, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
