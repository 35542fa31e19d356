#pragma once

#include "app/models/figure.h"
#include "ui/widgets/ui.h"

#include <string_view>

/// Figures of a read-model in the units of the house.
namespace mellowbin::views {

/// A figure to be read from where one stands.
void draw_figure(const app::Figure& figure, const HouseUnits& house, ui::TextSize size,
                 std::string_view note = {});
/// One of a list of facts.
void draw_fact(const app::Figure& figure, const HouseUnits& house);

} // namespace mellowbin::views
