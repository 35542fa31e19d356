#pragma once

#include "app/acts/act.h"
#include "core/plant.h"

#include <optional>
#include <string>

/// Runs whose dough ferments longer than their product's.
namespace mellowbin::app {

/// So many minutes beyond the product's, for strength the run's flour lacks; 0 or empty takes it back.
struct FermentLonger {
    RunId run;
    std::string minutes; ///< whole
};

Result<Told> carry_out(State& state, const FermentLonger& act);

/// The run with so many minutes of fermentation beyond its product's, as typed; nothing, with every reason,
/// where it may not ferment so long.
std::optional<Run> fermented_longer(const State& state, const Run& run, const std::string& minutes,
                                    Refusals& refusals);
/// The act that lets it ferment as this run does.
FermentLonger fermented_as(const Run& run);
/// "ferments 25 min longer, 70 min in all"; "ferments 45 min, no longer than its product".
std::string fermentation_of(const Product& product, const Run& run);

} // namespace mellowbin::app
