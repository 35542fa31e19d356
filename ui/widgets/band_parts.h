#pragma once

#include "ui/widgets/chart_parts.h"
#include "ui/widgets/rows.h"

namespace mellowbin::ui::inner {

/// Where the parts of a band chart stand.
struct BandLayout {
    ImRect all, head, body;
    DayScale scale;
    float label = 0, row = 0;
    bool is_columns = false; ///< label, amount and state stand beside each other
    struct Columns {
        float label, amount, state; ///< left, right, left
    } columns{};
};

/// Where the pointer is, and what it is on, gathered while the rows are drawn.
struct BandPointer {
    bool is_here = false;
    double day = 0;
    ImVec2 at{};
    std::string words = {};
};

/// One lot: its label, its textures, the spread under them, the ticks on them.
void draw_band_row(const BandRow& row, const BandLayout& layout, const ImRect& rect, std::int64_t record,
                   TimeAxis& axis, BandPointer& pointer, ImGuiID chart, BandEvents& events);

} // namespace mellowbin::ui::inner
