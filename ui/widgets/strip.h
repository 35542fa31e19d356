#pragma once

#include "ui/widgets/body.h"
#include "ui/widgets/theme.h"

#include <span>
#include <string_view>

namespace mellowbin::ui {

/// A slim line across the place for what must be seen first: its sign and words, and at the right what is
/// done about it. Long words go on under each other.
void strip(Role role, std::string_view words, Body acts = {});

/// Words behind which more stands: pressed, it opens or closes. True while it is open.
bool fold(std::string_view label, bool& is_open);

/// Small boxes of equal width in a row, to be read and not pressed: "Mon 83", "Wed 85 ✓".
struct Pill {
    std::string_view words;
    Role role = Role::ink; ///< good: bold
    bool is_here = false;  ///< the one that all this is about: on a ground of its role
};
void pills(std::string_view name, std::span<const Pill> row);

} // namespace mellowbin::ui
