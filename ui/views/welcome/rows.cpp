#include "ui/views/common/figure_fields.h"
#include "ui/views/welcome/steps.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr auto box = 19_em;

ui::FormRow row_of(std::string_view label, const Refusals& refusals, std::string_view note) {
    return {.label = label, .refusals = &refusals, .note = note, .label_width = 11_em, .box_width = box};
}

ui::Field field_of(std::string_view label, const Refusals& refusals, ui::Length width,
                   std::string_view unit = {}, std::string_view hint = {}) {
    auto field = ui::field_in_row(label, refusals, unit, hint);
    field.width = width;
    return field;
}

} // namespace

void text_row(std::string_view label, const Refusals& refusals, std::string& text, std::string_view note) {
    ui::form_row(row_of(label, refusals, note),
                 [&] { ui::text_field(field_of(label, refusals, box), text); });
}

void number_row(std::string_view label, std::string_view unit, const Refusals& refusals, std::string& text,
                std::string_view note) {
    ui::form_row(row_of(label, refusals, note),
                 [&] { ui::number_field(field_of(label, refusals, 8_em, unit), text); });
}

void day_row(std::string_view label, const Refusals& refusals, std::string& text, Day today,
             std::string_view note) {
    ui::form_row(row_of(label, refusals, note),
                 [&] { ui::date_field(field_of(label, refusals, 8_em, {}, "YYYY-MM-DD"), text, today); });
}

void name_row(std::string_view label, const Refusals& refusals, const std::vector<std::string>& names,
              std::string& name, std::string_view note) {
    ui::form_row(row_of(label, refusals, note),
                 [&] { name_choice(field_of(label, refusals, box), names, name); });
}

void take_only(const std::vector<std::string>& names, std::string& name) {
    if (name.empty() && names.size() == 1)
        name = names.front();
}

} // namespace mellowbin::views
