#pragma once

#include "core/result.h"
#include "ui/widgets/body.h"
#include "ui/widgets/field.h"
#include "ui/widgets/theme.h"

#include <string_view>

/// A form in one column, in which nothing jumps.
namespace mellowbin::ui {

/// A line of it: the label, the box or boxes, and at the right a place always kept for one message.
struct FormRow {
    std::string_view label;
    std::string_view field = {};        ///< whose refusals these are; empty: the label
    const Refusals* refusals = nullptr; ///< those of the field stand in the message's place
    std::string_view note = {};         ///< stands there while nothing is refused: a source, what is expected
    Role note_role = Role::quiet;       ///< good, mind and stop get their sign
    Length label_width = Length{10};
    Length box_width = Length{13.5F}; ///< of the boxes and their units
    Length more_width = {};           ///< of what stands behind the message, a small choice; zero: nothing
};

/// What stands in `boxes` and `more` is drawn without labels of its own (LabelPlace::hidden); refusals and
/// notes of fields in it are not written under their boxes. Where the place is too narrow, the label stands
/// above the boxes, and then the message beneath them, its lines kept all the same; `more` goes under a
/// message that it would make too narrow.
void form_row(const FormRow& row, Body boxes, Body more = {});

/// A field that stands in a row: its label and what is refused of it are written there.
Field field_in_row(std::string_view label, const Refusals& refusals, std::string_view unit = {},
                   std::string_view hint = {});

} // namespace mellowbin::ui
