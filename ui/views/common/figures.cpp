#include "ui/views/common/figures.h"

namespace mellowbin::views {

void draw_figure(const app::Figure& figure, const HouseUnits& house, ui::TextSize size,
                 std::string_view note) {
    const auto [value, unit] = app::shown(figure, house);
    ui::figure({.label = figure.label, .number = value, .unit = unit, .note = note, .size = size});
}

void draw_fact(const app::Figure& figure, const HouseUnits& house) {
    const auto [value, unit] = app::shown(figure, house);
    ui::fact({.label = figure.label, .value = value, .unit = unit, .note = figure.note});
}

} // namespace mellowbin::views
