#pragma once

#include "app/models/lots.h"
#include "ui/widgets/theme.h"

#include <vector>

namespace mellowbin::views {

ui::Role role_of(app::Finding::Weight weight);
/// One a line, each with the sign of its weight.
void draw_findings(const std::vector<app::Finding>& findings);

} // namespace mellowbin::views
