#pragma once

#include "ui/widgets/theme.h"

#include <string_view>

/// What stands on top of a sheet, as one record is opened beside the list.
namespace mellowbin::ui {

struct SheetHead {
    std::string_view name; ///< "OF-1021"
    std::string_view beside =
        {}; ///< quiet: "Strong white, Old Ferrow Mill"; under the name where it is narrow
};
/// The name as the largest thing, and at the right what closes the sheet. True when it was pressed, or Escape
/// was and nobody typed.
bool sheet_head(const SheetHead& head);

/// How it stands: one sentence in its role with its sign, why in ink under it, on a tinted ground.
struct SheetVerdict {
    Role role = Role::ink; ///< quiet and ink have no sign
    std::string_view words;
    std::string_view why = {};
};
void sheet_verdict(const SheetVerdict& verdict);

/// Small heads over a part of a page.
void part(std::string_view words);

} // namespace mellowbin::ui
