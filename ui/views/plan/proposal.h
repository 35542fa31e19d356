#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "ui/widgets/ui.h"

#include <cstdint>
#include <optional>

/// A proposed plan beside the one in the book.
namespace mellowbin::views {

/// What the proposal gains and moves, in short; adopt it or keep the book's. True when the comparison is
/// asked for.
bool draw_proposal(const app::PlanModel& model, app::Intents& out);

/// Both plans side by side: their parts, and the runs that moved. Gives the run to be shown on the board.
std::optional<std::int64_t> draw_comparison(ui::TableState& moved, const app::PlanModel& model,
                                            app::Intents& out);

} // namespace mellowbin::views
