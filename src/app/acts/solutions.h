#pragma once

#include "app/acts/act.h"
#include "core/batch.h"

#include <string>

/// Oxidant dissolved for a day's doughs.
namespace mellowbin::app {

/// An oxidant was dissolved for today's doughs.
struct MakeSolution {
    std::string substance; ///< name
    std::string grams_per_litre;
    std::string keeps_hours; ///< empty: as Settings say
    std::string answer = {}; ///< why its strength lies far from the line's
};
struct EndSolution {
    SolutionId solution;
};
/// The counter-entry of EndSolution.
struct KeepSolution {
    SolutionId solution;
};

Result<Told> carry_out(State& state, const MakeSolution& act);
Result<Told> carry_out(State& state, const EndSolution& act);
Result<Told> carry_out(State& state, const KeepSolution& act);

} // namespace mellowbin::app
