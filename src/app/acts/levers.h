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

Result<Told> carry_out(State& state, const ShowLevers& act);

} // namespace mellowbin::app
