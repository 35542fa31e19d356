#pragma once

#include <string_view>

namespace mellowbin::views {

/// The window while an older book is brought to its present form: what is being done, and the share of it
/// that is done, 0 to 1.
void draw_opening(std::string_view what, double share);

} // namespace mellowbin::views
