#pragma once

#include "aging/estimate.h"
#include "aging/flour_keeping.h"
#include "aging/outlook.h"

#include <optional>
#include <span>
#include <string>

namespace mellowbin::aging {

/// A determination of fat acidity.
struct FatAcidityTest {
    FatAcidity value;
    Day taken_on;
    std::string method = {};   ///< as it was written down; readings of two are never mixed
    bool is_the_mills = false; ///< from its certificate: without a method it is not compared with the plant's
};

/// The line of a lot's fat acidity: it rises evenly in days at 20 C (zero order; seen at 55 and 70 % relative
/// humidity). Its rise is lognormal about the class's; determinations of the lot sharpen it.
struct FatAcidityLine {
    FatAcidity now;                  ///< likely, on the day asked about
    FatAcidity rise;                 ///< likely, per day at 20 C
    DaySpread limit_on;              ///< when the limit is reached; none within two years
    std::size_t determinations = 0;  ///< that were counted: those by the method of the newest
    std::size_t set_aside = 0;       ///< by another method
    std::string method;              ///< of those that were counted
    std::optional<FatAcidity> first; ///< the lot's own first of them, from which the line starts
};
/// Determinations after `day` do not count, nor those by another method than the newest: levels of two
/// methods lie far apart. The lot's own level is that of its own readings, from the first one on. With none,
/// what is usual of fresh flour of the class stands in on the milling (or the delivery).
FatAcidityLine fat_acidity_line(const Estimate& estimate, std::span<const FatAcidityTest> tests, Day day,
                                FatAcidity limit = fat_acidity_limit());

} // namespace mellowbin::aging
