#pragma once

#include "ui/widgets/body.h"
#include "ui/widgets/theme.h"

#include <cstdint>
#include <initializer_list>
#include <string_view>

namespace mellowbin::ui {

/// Things stand under each other unless a container says otherwise. Widths of zero mean "what the place
/// gives".

/// Space below what was drawn, in quarter lines (5.5 px at 100 %).
void gap(int quarters = 2);
/// A thin line across the place.
void rule();

/// A card: panel colour, title on top (none if empty), as high as what stands in it.
void panel(std::string_view title, Body body);
/// The same, filling the height that is left in its place, and scrolling inside.
void filling_panel(std::string_view title, Body body);
/// A card with a thick edge in the role's colour: for what must be seen first (a shortage, a caution).
void loud_panel(Role role, std::string_view title, Body body);

/// One of several places side by side.
struct Pane {
    std::string_view name; ///< names the place for ids and tests; not drawn
    float share;           ///< of the width left
    Length least;          ///< narrower than this, and all panes stand under each other instead
    Body body;
};
/// Places side by side, each scrolling for itself, over the height that is left. Where the width does not do,
/// they stand under each other in one scroll area.
void panes(std::initializer_list<Pane> panes);

/// A scroll area of a height; zero is the height that is left.
void scroll_area(std::string_view name, Length height, Body body);

/// Things stand side by side and go to the next line where the width ends. Buttons beside labelled fields
/// stand on the line of the boxes.
void flow(Body body);
/// In a flow: things that end at its right edge, on this line where they fit, else on the next.
void at_right(std::string_view name, Body body);
/// Things stand in columns of equal width, as many as fit with `least` each; rows as high as their highest.
/// Headings, paragraphs, hints, rules and tables take a whole row; a panel or a stack takes one cell.
void grid(Length least, Body body);
/// In a grid: what stands in it takes a whole row.
void whole_row(Body body);
/// Things under each other that count as one thing in a flow (of this width) or a grid.
void stack(Length width, Body body);

/// A place of its own for ids: rows of the same words are told apart by their record.
void scope(std::int64_t record, Body body);
void scope(std::string_view name, Body body);
/// A form: Enter in one of its fields presses its primary button.
void form(std::string_view name, Body body);
/// Touch targets of 64 px and text of the mixer's size inside: usable with a knuckle, read from 1 m.
void large(Body body);

/// As large(), but growing with the window: the mixer's own places.
void bowl(Body body);
/// What is so many pixels at 1280 x 720 and grows with the window.
Length grown_with_window(float pixels);

/// So much at the lower edge of the window belongs to what is pressed there: what was just done is told above
/// it. For the frame being drawn.
void keep_clear_below(Length height);

/// Length that is left in the place, in ems.
Length width_left();
Length height_left();

} // namespace mellowbin::ui
