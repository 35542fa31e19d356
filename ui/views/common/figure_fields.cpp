#include "ui/views/common/figure_fields.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {

using namespace ui::literals;

bool name_choice(ui::Field field, const std::vector<std::string>& names, std::string& name) {
    const auto at = std::find(names.begin(), names.end(), name);
    int chosen = at == names.end() ? -1 : static_cast<int>(at - names.begin());
    std::string note;
    if (chosen < 0 && !name.empty()) {
        note = fmt::format("\"{}\" was read; it is not in the list", name);
        field.note = note;
    }
    if (!ui::choice(field, names, chosen))
        return false;
    name = names[static_cast<std::size_t>(chosen)];
    return true;
}

bool is_refused(const Refusals& refusals, std::string_view field) {
    return std::any_of(refusals.begin(), refusals.end(), [&](const Refusal& r) { return r.field == field; });
}

void figure_fields(FigureDraft& figure, const Refusals& refusals, const std::vector<std::string>& bases,
                   AskMethod ask_method) {
    const auto& kind = traits(figure.property);
    const bool is_long = ask_method == AskMethod::always;
    const bool has_method = is_long || depends_on_method(kind.property);
    const std::string basis_label = is_long ? "Basis" : fmt::format("{} basis", kind.name);
    const std::string method_label = is_long ? "Method" : fmt::format("{} method", kind.name);
    // The box is as wide as its label at least; a refused figure gets the width of its words, and its basis
    // then stands below.
    const auto beside_method = is_long ? 11_em : 8_em;
    const auto ordinary = has_method ? beside_method : 4.5_em;
    const ui::Length width = is_refused(refusals, kind.name) ? 14_em : ordinary;
    ui::number_field({.label = kind.name, .unit = kind.unit, .refusals = &refusals, .width = width},
                     figure.value);
    if (kind.has_basis)
        name_choice({.label = basis_label, .refusals = &refusals, .width = 9_em}, bases, figure.basis);
    if (has_method)
        ui::text_field({.label = method_label, .refusals = &refusals, .width = 9_em}, figure.method);
}

} // namespace mellowbin::views
