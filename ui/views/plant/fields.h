#pragma once

#include "core/day.h"
#include "ui/views/plant/records.h"
#include "ui/widgets/field.h"

#include <set>
#include <string>
#include <string_view>

namespace mellowbin::views {

/// One record's form while it is drawn.
struct RecordForm {
    PlantTyped typed;                   ///< changes as it is typed
    const app::PlantRow* row = nullptr; ///< as the book has it; null: a new one
    Refusals refusals;                  ///< what is said, each at its field or row
    const app::PlantModel& model;
    Day today;
    std::set<std::string, std::less<>> changed, left; ///< fields, in this frame

    void follow(std::string_view field, const ui::Edited& edited) {
        if (edited.changed)
            changed.emplace(field);
        if (edited.left)
            left.emplace(field);
    }
};

inline constexpr std::string_view oxidant_caution =
    "Oxidants are hazards to weigh and to breathe, and limits on them are law: have qualified staff confirm "
    "what is dosed.";

/// All fields of the kind under their heads, but whether it is retired: that has buttons of its own.
void draw_fields(RecordForm& form);
/// The lists of the kind, a row for each of their lines.
void draw_lists(RecordForm& form);

/// These stand at no field and no row.
Refusals without_place(const Refusals& refusals, PlantKind kind);

} // namespace mellowbin::views
