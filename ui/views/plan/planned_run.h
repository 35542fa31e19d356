#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/plan/moves.h"
#include "ui/widgets/ui.h"

#include <array>
#include <string>

/// How a planned run is told: its three gauges, and the sheet beside the board.
namespace mellowbin::views {

/// Strength, windows, law. The words are kept here, for gauges only borrow them.
struct RunGauges {
    explicit RunGauges(const app::PlannedRun& run);
    std::array<std::string, 3> words;
    std::array<ui::CardGauge, 3> gauges;
    RunGauges(const RunGauges&) = delete;
    RunGauges& operator=(const RunGauges&) = delete;
};

/// All of a run: its lots with kg, maturity, reason and lock; oxidant, windows, law; what is missing with its
/// cure, which lots were possible and what forbade the rest. A lot is chosen, or picked up to be given to
/// another run, on the board.
void draw_run(const app::PlannedRun& run, const app::PlanModel& model, ui::BoardState& board,
              app::Intents& out);

/// Locks or unlocks the chosen lot of the run; without one chosen the only one.
void turn_lock(const app::PlannedRun& run, std::optional<std::int64_t> chosen, app::Intents& out);
/// What "Give" picks up: the chosen lot of the run, or the only one.
std::optional<std::int64_t> chosen_lot(const app::PlannedRun& run, std::optional<std::int64_t> chosen);

/// The lots of a run on one line: "W24-118 800 kg, W24-121 400 kg".
std::string lots_in_words(const app::PlannedRun& run);

} // namespace mellowbin::views
