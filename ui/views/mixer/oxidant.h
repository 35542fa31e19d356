#pragma once

#include "app/models/card.h"
#include "ui/widgets/ui.h"

namespace mellowbin::views {

void draw_caution(const app::CardCaution& caution);
[[nodiscard]] bool is_beside_oxidant(const app::CardCaution& caution);

/// What is weighed or poured, with `solution` beneath it and the oxidant's own cautions; loud where there are
/// any, or where the solution is past its time.
void draw_oxidant(const app::CardModel& card, ui::Body solution);

} // namespace mellowbin::views
