#pragma once

#include "ui/widgets/theme.h"

#include <optional>
#include <string_view>

namespace mellowbin::ui {

enum class ButtonKind {
    ordinary,
    primary, ///< what the place is for: one a form, Enter in a field presses it
    stop,    ///< rejects, holds, withdraws
    quiet,   ///< words only: sort, show more, copy
};

struct Button {
    ButtonKind kind = ButtonKind::ordinary;
    std::string_view blocked =
        {}; ///< why it cannot be pressed now; not empty: disabled, and the reason stands beside it
    std::string_view key =
        {};            ///< its shortcut, shown in quiet ink: "F2". The caller asks key_pressed() itself
    Length width = {}; ///< zero: as wide as its words
    std::string_view tip = {}; ///< extra only; no fact lives in a tip alone
};

/// The words say what it will do: "Take in 3 lots". Pressed by pointer, Space, or Enter when it has the
/// focus.
bool button(std::string_view label, const Button& options = {});

/// A stretch of days, a page of many: joined buttons for one back and one on, and between them where one is,
/// which can be pressed as well.
enum class Stepped { not_at_all, back, here, on };
struct Stepper {
    std::string_view back, here, on; ///< what a person reads: "Earlier days", "25 Nov to 1 Dec", "Later days"
};
Stepped stepper(const Stepper& stepper);

/// Work over a second: what is being done and how far, in figures that are known, never an invented
/// percentage.
struct Progress {
    std::string_view label;              ///< "Planning 14 days"
    std::string_view words;              ///< "1204 nodes · 12 s · gap 1.4 %"
    std::optional<double> done = {};     ///< 0 to 1 where it is truly known; else a bar that only says "busy"
    std::string_view stop_verb = "Stop"; ///< empty: cannot be stopped
};
/// True when its stop button was pressed.
bool progress(const Progress& progress);

} // namespace mellowbin::ui
