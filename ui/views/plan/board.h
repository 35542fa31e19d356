#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "ui/views/plan/moves.h"
#include "ui/widgets/ui.h"

#include <optional>

/// The runs of the days shown, as cards over lines and days, and as a table of the same facts.
namespace mellowbin::views {

/// What was asked of the board beside what became an intent.
struct BoardAsked {
    bool selected = false;            ///< another run was chosen
    bool opened = false;              ///< the chosen run is to be looked at
    std::optional<ui::BoardCell> add; ///< a run is wanted here
};

/// A lot tapped on a card is opened; a run or a lot carried elsewhere becomes the intent that `judge` told
/// of.
BoardAsked draw_plan_board(ui::BoardState& state, const app::PlanModel& model, Tried tried,
                           app::Intents& out);
/// True when another run was chosen; a run opened leads to its card.
bool draw_plan_table(ui::TableState& state, const app::PlanModel& model, app::Intents& out);

} // namespace mellowbin::views
