#pragma once

#include "app/acts/act.h"
#include "core/test_precision.h"

#include <cstdint>
#include <optional>

/// How far two laboratories' results may lie apart, as the plant has read it.
namespace mellowbin::app {

/// The plant's own row goes before the published ones.
struct SetTestPrecision {
    std::int64_t row = 0; ///< 0: one more
    TestPrecisionDraft as;
};
struct DropTestPrecision {
    std::int64_t row = 0;
};
/// The counter-entry of both: the row as it was, or none; unless somebody wrote to it meanwhile.
struct RestoreTestPrecision {
    std::optional<TestPrecision> before, after; ///< as it was left
};

Result<Told> carry_out(State& state, const SetTestPrecision& act);
Result<Told> carry_out(State& state, const DropTestPrecision& act);
Result<Told> carry_out(State& state, const RestoreTestPrecision& act);

} // namespace mellowbin::app
