#pragma once

#include "core/figure_draft.h"
#include "ui/widgets/field.h"

#include <string>
#include <vector>

/// Fields that more than one form has.
namespace mellowbin::views {

/// One of the names, kept as text: a name that was read from a file and is not in the list stays as it was
/// read. True when another one was chosen.
bool name_choice(ui::Field field, const std::vector<std::string>& names, std::string& name);

enum class AskMethod {
    where_it_matters, ///< labels name the property: "Protein basis", "Starch damage method"
    always,           ///< labels are short, "Basis", "Method": give the figure a scope of its own
};
/// A laboratory's figure: its value, its moisture basis where it has one, its method. Refusals of the
/// property stand beside its value. Draw it in a flow.
void figure_fields(FigureDraft& figure, const Refusals& refusals, const std::vector<std::string>& bases,
                   AskMethod ask_method);

bool is_refused(const Refusals& refusals, std::string_view field);

} // namespace mellowbin::views
