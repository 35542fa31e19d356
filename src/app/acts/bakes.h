#pragma once

#include "app/acts/act.h"
#include "core/bake.h"

#include <string>

/// Loaves of a bake ladder.
namespace mellowbin::app {

struct LogBake {
    LotId lot;
    BakeDraft bake;
};
struct WithdrawBake {
    BakeId bake;
    std::string reason;
};

Result<Told> carry_out(State& state, const LogBake& act);
Result<Told> carry_out(State& state, const WithdrawBake& act);

} // namespace mellowbin::app
