#pragma once

#include "ui/widgets/field.h"
#include "ui/widgets/inner.h"

namespace mellowbin::ui::inner {

/// The parts that every field shares: label, box, unit, what stands under it. begin_field() places and draws
/// what is round the box; the caller draws the box; end_field() writes refusals, reason or note under it.
struct FieldFrame {
    Spot spot;
    ImRect box;
    float width = 0; ///< of the whole field
    bool refused = false;
    bool enabled = true;
};

/// `beside` pixels right of the box are the caller's (buttons); `natural` is the width the box would like.
FieldFrame begin_field(const Field& field, float natural, float beside = 0);
void end_field(const Field& field, const FieldFrame& frame);
/// A refusal in one line: what, and what to do about it.
std::string in_one_line(const Refusal& refusal);
/// A refusal or a note under something; the height it took.
float words_under(std::string_view words, Role role, Kind kind, ImVec2 at, float width);
/// Labels at the left stand in one column: as wide as the widest of the frame before, and the space after it.
float label_column(std::string_view label);
/// The ground and border of a box in its state.
void draw_box(const FieldFrame& frame, bool focused, bool hovered);
enum class Lines { one, several };
/// The text inside a box, typed into; `from` and `to` pixels of the box are left free at its sides.
Edited type_into(const Field& field, const FieldFrame& frame, std::string& text, float from, float to,
                 Lines lines = Lines::one);

} // namespace mellowbin::ui::inner
