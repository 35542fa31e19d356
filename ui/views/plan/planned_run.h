#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/plan/moves.h"
#include "ui/widgets/ui.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

/// How a planned run stands, in words and roles, wherever it is told.
namespace mellowbin::views {

struct RunPart {
    std::string_view name; ///< "Strength"
    std::string words;     ///< "enough", "84 of 85 %"
    ui::Role role;
};
/// Strength, specification, law; where something stands against its next batch that a planner can do
/// something about, the card in the law's place.
std::array<RunPart, 3> parts_of(const app::PlannedRun& run);

/// What fails, the gravest first; empty: nothing does.
struct RunFault {
    std::string words; ///< "short 221 kg", "84 of 85 %"
    ui::Role role;     ///< stop, or mind where somebody must answer first
};
std::vector<RunFault> faults_of(const app::PlannedRun& run);

/// "fixed", "changed", "past", "locked"; empty: open to every plan.
std::string remark_of(const app::PlannedRun& run);
/// The bands' texture for a lot's readiness; none where it is not known.
std::optional<ui::Texture> texture_of(const app::PlannedLot& lot);

/// Locks or unlocks the chosen lot of the run; without one chosen the only one.
void turn_lock(const app::PlannedRun& run, std::optional<std::int64_t> chosen, app::Intents& out);
/// What "Give" picks up: the chosen lot of the run, or the only one.
std::optional<std::int64_t> chosen_lot(const app::PlannedRun& run, std::optional<std::int64_t> chosen);

/// The lots of a run on one line: "W24-118 800 kg, W24-121 400 kg".
std::string lots_in_words(const app::PlannedRun& run);

} // namespace mellowbin::views
