#pragma once

#include "app/models/intake.h"
#include "core/day.h"
#include "ui/views/intake/delivery.h"

#include <string>
#include <string_view>

namespace mellowbin::views {

/// What the fields of a lot are drawn from. The draft is the view's own and holds what was typed, letter by
/// letter; what is refused of it stands beside its field, in a place that is always there.
struct LotForm {
    DeliveryLine& line;
    const app::IntakeModel& model;
    Day today;
};

// A row each, in one column; the drawn label may be shorter than the field's name.
void text_row(LotForm& form, std::string_view field, std::string& text, std::string_view note = {});
void number_row(LotForm& form, std::string_view field, std::string_view unit, std::string& text,
                std::string_view note = {});
void day_row(LotForm& form, std::string_view field, std::string& text, std::string_view note = {});
/// True when another one was chosen.
bool name_row(LotForm& form, std::string_view field, const std::vector<std::string>& names, std::string& name,
              std::string_view note = {});

/// The fields of one lot in the order of its certificate. What is seldom asked for is folded, and unfolds by
/// itself when something of it is refused.
struct LotFolds {
    bool shows_more = false;
    bool shows_pallets = false;
    bool asks_own_bases = false; ///< beside each figure, not only where it differs
};
void lot_form(LotForm& form, LotFolds& folds);
/// The certificate's figures: the basis of all, those asked first, or the others.
enum class Figures { asked_first, others };
void figure_rows(LotForm& form, LotFolds& folds, Figures figures);
/// The figure stands among those asked first.
bool is_asked_first(const LotForm& form, Property property);

} // namespace mellowbin::views
