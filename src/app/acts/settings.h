#pragma once

#include "app/acts/act.h"

#include <string>
#include <string_view>

/// Choices of the plant.
namespace mellowbin::app {

struct ChangeSetting {
    std::string key;
    std::string value;
};

/// The choice as it may be stored, or why not: no choice of this key, no value that it takes, no such time
/// zone.
Result<std::string> accepted_choice(std::string_view key, std::string_view value);

Result<Told> carry_out(State& state, const ChangeSetting& act);

} // namespace mellowbin::app
