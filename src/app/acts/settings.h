#pragma once

#include "app/acts/act.h"

#include <string>

/// Choices of the plant.
namespace mellowbin::app {

struct ChangeSetting {
    std::string key;
    std::string value;
};

Result<Told> carry_out(State& state, const ChangeSetting& act);

} // namespace mellowbin::app
