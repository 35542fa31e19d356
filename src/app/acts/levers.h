#pragma once

#include "app/acts/act.h"
#include "core/plant.h"

#include <optional>

/// Ways to make up missing strength, looked at.
namespace mellowbin::app {

/// The levers of a run, worked out and shown; nothing: no longer.
struct ShowLevers {
    std::optional<RunId> run;
};

/// How a run on the plan stands and what would cure it; nothing: no longer.
struct ShowCures {
    std::optional<RunId> run;
};

Result<Told> carry_out(State& state, const ShowLevers& act);
Result<Told> carry_out(State& state, const ShowCures& act);

} // namespace mellowbin::app
