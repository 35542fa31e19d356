#include "aging/expected_change.h"

#include "aging/clocks.h"

#include <cmath>

namespace mellowbin::aging {
namespace {

double matured(const Estimate& estimate, const MaturingTest& test, double fresh, Day on) {
    if (test.follows != Follows::own_rate)
        return estimate.maturity_at(0.5, on).value();
    const double run = std::exp(estimate.run_slope({fresh, days_of(on), false, {}}).log_run);
    return maturity(test.own_rate.median * run).value();
}

} // namespace

MeanAndSpread expected_change(const Estimate& estimate, const MaturingTest& test, const Amplitude& amplitude,
                              double fresh, Day on) {
    const double scale =
        matured(estimate, test, fresh, on) * (test.change == ChangeKind::share ? std::abs(fresh) : 1);
    return {scale * amplitude.mean, scale * amplitude.sd};
}

} // namespace mellowbin::aging
