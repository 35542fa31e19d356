#include "ui/widgets/modules.h"

#include "ui/widgets/inner.h"
#include "ui/widgets/text.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

constexpr float most_of_area = 6, most_of_bars = 3; // pixels of a module at 96 dpi

/// Dark modules side by side are one rectangle: no seam between them.
void draw_row(const Modules& symbol, std::size_t row, ImVec2 at, float module, float height) {
    const auto is_dark = [&](std::size_t column) { return (*symbol.dark)[row * symbol.columns + column]; };
    for (std::size_t column = 0; column < symbol.columns;) {
        std::size_t end = column;
        while (end < symbol.columns && is_dark(end))
            ++end;
        if (end > column)
            paper().AddRectFilled(at + ImVec2(static_cast<float>(column) * module, 0),
                                  at + ImVec2(static_cast<float>(end) * module, height), IM_COL32_BLACK);
        column = std::max(end, column + 1);
    }
}

} // namespace

void modules(const Modules& symbol) {
    const auto around = static_cast<float>(symbol.columns + 2 * symbol.quiet);
    const bool is_bars = symbol.rows == 1;
    const float most = std::round((is_bars ? most_of_bars : most_of_area) * state().setup.content_scale);
    const float module = std::clamp(std::floor(place().width / around), 0.0f, std::max(1.0f, most));
    if (module < 1) {
        hint("The window is too narrow for these bars.");
        return;
    }
    const float quiet = static_cast<float>(symbol.quiet) * module;
    const float row_height = is_bars ? px(Length{5}) : module;
    const ImVec2 size{around * module, static_cast<float>(symbol.rows) * row_height + 2 * quiet};
    const Spot spot = open_spot(size.x);
    const ImVec2 at{std::round(spot.at.x), std::round(spot.at.y)};
    const ImRect rect{at, at + size};
    paper().AddRectFilled(rect.Min, rect.Max, IM_COL32_WHITE);
    for (std::size_t row = 0; row < symbol.rows; ++row)
        draw_row(symbol, row, at + ImVec2(quiet, quiet + static_cast<float>(row) * row_height), module,
                 row_height);
    note(Kind::figure, symbol.label, rect);
    close_spot(spot, size.x, size.y);
}

} // namespace mellowbin::ui
