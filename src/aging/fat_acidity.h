#pragma once

#include "aging/estimate.h"
#include "aging/flour_keeping.h"
#include "aging/outlook.h"

#include <optional>
#include <span>

namespace mellowbin::aging {

/// A determination of fat acidity.
struct FatAcidityTest {
    FatAcidity value;
    Day taken_on;
};

/// The line of a lot's fat acidity: it rises evenly in days at 20 C (zero order; seen at 55 and 70 % relative
/// humidity). Its rise is lognormal about the class's; determinations of the lot sharpen it.
struct FatAcidityLine {
    FatAcidity now;                 ///< likely, on the day asked about
    FatAcidity rise;                ///< likely, per day at 20 C
    DaySpread limit_on;             ///< when the limit is reached; none within two years
    std::size_t determinations = 0; ///< that were counted
};
/// Determinations after `day` do not count. With none, what is usual of fresh flour of the class stands in on
/// the milling (or the delivery).
FatAcidityLine fat_acidity_line(const Estimate& estimate, std::span<const FatAcidityTest> tests, Day day,
                                FatAcidity limit = fat_acidity_limit());

} // namespace mellowbin::aging
