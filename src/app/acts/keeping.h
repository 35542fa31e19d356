#pragma once

#include "app/acts/act.h"
#include "core/bake.h"

#include <string>

/// How bread kept.
namespace mellowbin::app {

struct LogKeeping {
    KeepingDraft record;
};
struct WithdrawKeeping {
    KeepingId record;
    std::string reason;
};

Result<Told> carry_out(State& state, const LogKeeping& act);
Result<Told> carry_out(State& state, const WithdrawKeeping& act);

} // namespace mellowbin::app
