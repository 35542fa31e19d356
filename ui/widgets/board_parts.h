#pragma once

#include "ui/widgets/chart_parts.h"
#include "ui/widgets/rows.h"

namespace mellowbin::ui::inner {

/// Widths and gaps of a board.
struct BoardSizes {
    float label, day, head, pad, gap;
};

float card_height(const Card& card, const BoardSizes& sizes);
void draw_card(const Card& card, const ImRect& rect, const BoardSizes& sizes, ImGuiID board, BoardState& own,
               BoardEvents& events);

} // namespace mellowbin::ui::inner
