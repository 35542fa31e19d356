#pragma once

#include "ui/widgets/theme.h"

#include <string_view>

namespace mellowbin::ui {

struct TextStyle {
    TextSize size = TextSize::text;
    Role role = Role::ink;
    Weight weight = Weight::regular;
};

/// One line, not wrapped: for short words. Long ones go into paragraph().
void text(std::string_view words, TextStyle style = {});
/// Wrapped to the width of the place it stands in.
void paragraph(std::string_view words, TextStyle style = {});
/// What a place is about, 20 px.
void heading(std::string_view words);
/// Wrapped, in quiet ink: sources, what to do first, reservations.
void hint(std::string_view words);
/// Words with the sign and colour of their role: "✓ ready", "✕ held: awaiting retest". Wrapped.
void status(Role role, std::string_view words);
/// Small words with the role's sign on a tinted ground, one line: for a state beside a heading.
void badge(Role role, std::string_view words);

/// A number with its label above, unit beside it in quiet ink, and where it comes from underneath.
struct Figure {
    std::string_view label;
    std::string_view number; ///< formatted already, equal decimals where figures stand together
    std::string_view unit = {};
    std::string_view note = {}; ///< spread, source, "model", "from memory"; quiet ink, wrapped
    TextSize size = TextSize::figure;
    Role role = Role::ink;
};
void figure(const Figure& figure);

/// A list of facts: labels left, numbers right-aligned in one column, units in quiet ink, notes after them.
/// Draw the rows one after another; the columns fit the widest words seen (of the frame before).
struct Fact {
    std::string_view label;
    std::string_view value;
    std::string_view unit = {};
    std::string_view note = {};
    Role role = Role::ink;
};
void fact(const Fact& fact);

} // namespace mellowbin::ui
