#pragma once

#include "core/day.h"
#include "core/result.h"
#include "ui/widgets/theme.h"

#include <span>
#include <string>
#include <string_view>

namespace mellowbin::ui {

enum class LabelPlace { above, left, hidden };
/// What Enter does in a field.
enum class Enter {
    main_action, ///< presses the form's primary button
    entered,     ///< is told to the caller alone: scans, searches
};

/// What all fields share. The label names the field for the person, for refusals and for tests.
struct Field {
    std::string_view label;
    std::string_view unit = {};         ///< beside the box, in quiet ink
    std::string_view hint = {};         ///< in the empty box: what is expected ("2024-11-25", "11,8")
    const Refusals* refusals = nullptr; ///< those whose `field` is the label stand under the box
    std::string_view note = {};         ///< under the box in quiet ink: source, limits, what it was before
    std::string_view blocked = {}; ///< why it cannot be changed now; not empty: disabled and the reason shown
    Length width = {};             ///< of the box; zero: what the place gives, at most 24 em
    LabelPlace label_place = LabelPlace::above;
    Enter enter = Enter::main_action;
};

struct Edited {
    bool changed = false; ///< the text is another than before
    bool entered = false; ///< Enter was pressed in it (only with Enter::entered)
    bool left = false;    ///< the focus went away
    explicit operator bool() const { return changed; }
};

/// A line of text. The string is the view's own; it holds what was typed, at every frame.
Edited text_field(const Field& field, std::string& text);
/// Several lines, as they were pasted: nothing is wrapped, Enter begins the next line, Tab leaves it.
Edited text_area(const Field& field, std::string& text, Length height);
/// What is typed while no field has the cursor goes into `text`, in place of what stood there: a scanner's
/// line finds its way wherever the last press was. Once a frame, of one caller; not behind a dialog.
/// `changed` as it grows, `entered` when Enter ended it.
Edited catch_typing(std::string& text);
/// A number as typed, "11,85" stays "11,85"; core's read_decimal() reads it. Never a number here: an empty
/// field is missing, not the value before.
Edited number_field(const Field& field, std::string& text);
/// A day as ISO text (YYYY-MM-DD) with buttons for one day less and more; in an empty field they start at
/// `today`.
Edited date_field(const Field& field, std::string& iso_day, Day today);
/// With a magnifier and a button that empties it. Enter is told to the caller.
Edited search_field(const Field& field, std::string& text);

/// One of several words. Up to four that fit stand side by side, more open under a drop-down; arrows change
/// it. `chosen` is an index into `options`, -1 for none yet. True when it changed.
bool choice(const Field& field, std::span<const std::string> options, int& chosen);
bool choice(const Field& field, std::span<const std::string_view> options, int& chosen);
/// The pages of a screen, one of them shown: as a choice, but side by side as long as all of them fit.
bool pages(const Field& field, std::span<const std::string_view> names, int& page);

struct Tick {
    std::string_view note = {};    ///< under the words, in quiet ink
    std::string_view blocked = {}; ///< why it cannot be changed now
    const Refusals* refusals = nullptr;
};
/// A box to tick; the words are part of it. True when it changed.
bool tick(std::string_view label, bool& ticked, const Tick& options = {});

/// All refusals, one a line with their fields' names: for places where the fields are not at hand.
void all_refusals(const Refusals& refusals);

} // namespace mellowbin::ui
