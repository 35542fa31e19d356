#pragma once

#include "app/intents.h"
#include "app/read_models.h"
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

/// All of a run: its lots with kg, maturity, reason and lock; oxidant, windows, law, and what was forbidden.
void draw_run(const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out);

/// The lots of a run on one line: "W24-118 800 kg, W24-121 400 kg".
std::string lots_in_words(const app::PlannedRun& run);

} // namespace mellowbin::views
