#pragma once

#include "aging/estimate.h"
#include "aging/evidence.h"
#include "aging/rate_belief.h"

namespace mellowbin::aging {

/// By how much a property measured on fresh flour is expected to have changed by aging alone on a day: in its
/// unit, with the spread of what the change is believed to be from fresh to mature. The flour goes by the
/// middle of its estimate, a property of its own rate by that. `fresh` is the fresh flour's figure.
MeanAndSpread expected_change(const Estimate& estimate, const MaturingTest& test, const Amplitude& amplitude,
                              double fresh, Day on);

} // namespace mellowbin::aging
