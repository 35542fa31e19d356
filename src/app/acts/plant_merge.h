#pragma once

#include "core/plant_draft.h"
#include "core/result.h"

#include <string>

/// Two drafts of one record.
namespace mellowbin::app {

/// "Mixing 8 -> 9; Specification changed"; empty where they are the same.
std::string changes_in_words(const PlantDraft& before, const PlantDraft& after);

/// What was typed over `before`, while somebody made it `now`: what only one of the two changed is theirs;
/// what both changed, each to something else, is refused at its field, with who did it.
Result<PlantDraft> merged_with(const PlantDraft& now, const PlantDraft& before, PlantDraft typed,
                               const std::string& who);

} // namespace mellowbin::app
