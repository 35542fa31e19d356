#pragma once

#include "app/acts/act.h"

#include <cstdint>

/// Limits of the law.
namespace mellowbin::app {

struct ConfirmLimit {
    std::int64_t row = 0; ///< the person has read the law's text and takes responsibility for the row
};
/// Takes a confirmation back.
struct DoubtLimit {
    std::int64_t row = 0;
};

Result<Told> carry_out(State& state, const ConfirmLimit& act);
Result<Told> carry_out(State& state, const DoubtLimit& act);

} // namespace mellowbin::app
