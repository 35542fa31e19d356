#include "app/models/dose_maturity.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mellowbin::app {

std::optional<MaturityRange> matured_since(const Bake& loaf, const aging::Estimate& estimate, Day day) {
    if (!loaf.maturity || estimate.flour().flour_class == FlourClass::wholemeal)
        return {};
    // Flour that matures fast at first has less to gain later: the same share on both days, and the gains in
    // their own order.
    std::array gains{0.1, 0.5, 0.9};
    for (auto& share : gains)
        share = estimate.maturity_at(share, day).value() - estimate.maturity_at(share, loaf.baked_on).value();
    const double likely = gains[1];
    std::sort(gains.begin(), gains.end());
    const auto then = [&](double gain) {
        const double maturity = std::clamp(loaf.maturity->likely.value() + gain, 0.0, 1.0);
        return Maturity{std::round(100 * maturity) / 100};
    };
    return MaturityRange{then(gains[0]), then(likely), then(gains[2])};
}

} // namespace mellowbin::app
