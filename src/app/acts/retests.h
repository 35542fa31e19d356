#pragma once

#include "app/acts/act.h"
#include "core/retest.h"

#include <string>

/// The plant's own results.
namespace mellowbin::app {

struct LogRetest {
    LotId lot;
    RetestDraft retest;
};
struct WithdrawRetest {
    RetestId retest;
    std::string reason;
};

Result<Told> carry_out(State& state, const LogRetest& act);
Result<Told> carry_out(State& state, const WithdrawRetest& act);

} // namespace mellowbin::app
