#pragma once

#include "app/models/intake.h"

namespace mellowbin::views {

enum class Figures { asked_first, all };

/// The fields of one lot. The draft is the view's own and holds what was typed, letter by letter; refusals
/// stand beside the fields they name. Draws the figures that are asked first and those the draft already has,
/// or all there are.
void lot_form(LotDraft& draft, const Refusals& refusals, const app::IntakeModel& model, Day today,
              Figures figures);

} // namespace mellowbin::views
