#pragma once

#include "ui/widgets/body.h"
#include "ui/widgets/theme.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace mellowbin::ui {

/// A screen's name on the slim rail, with what waits there.
struct RailItem {
    std::string_view name;
    std::string_view key =
        {}; ///< as shown; the rail answers to "F1" … "F12", and to Ctrl+1 … Ctrl+9 by place
    std::string_view waiting = {}; ///< "3 in quarantine", "1 short"; empty when nothing waits
    Role waiting_role = Role::mind;
};

/// One line on top: facts that hold everywhere.
struct TopLine {
    std::string_view day_and_time;
    std::string_view person = {};
    std::string_view book = {};    ///< its path: the name is shown, all of it under the pointer
    std::string_view running = {}; ///< what runs in the background; empty: nothing
    std::string* search = nullptr; ///< a lot number, a supplier, a product, a scan; none if null
    std::string_view search_hint = "Lot, supplier, product or scan";
};

/// What was just done, in one line, with its undo.
struct Notice {
    std::string_view words = {}; ///< empty: no notice
    Role role = Role::good;
    std::string_view undo =
        {}; ///< the button's words: "Undo: hold lot W24-118 again"; empty: nothing to undo
};
/// How long what was done stays: long enough to read it and reach for its undo.
constexpr float notice_seconds = 12;

struct WorkbenchEvents {
    std::optional<int> screen; ///< another screen was chosen
    bool searched = false;     ///< Enter in the search
    bool undo = false;
    bool notice_put_away = false;
    bool notice_is_held = false; ///< the pointer or the focus is on it: it must not go now
};

enum class Around { all, nothing };

/// The whole window: rail, top line, and the screen in the rest; or the screen alone. The notice lies over
/// the lower edge, above what a screen keeps clear, and pushes nothing.
WorkbenchEvents workbench(std::span<const RailItem> rail, int current, const TopLine& top,
                          const Notice& notice, Body screen, Around around = Around::all);

} // namespace mellowbin::ui
