#pragma once

#include "core/plant.h"
#include "core/quantity.h"

#include <optional>

namespace mellowbin::aging {

struct FattyAcidsTag {
    static constexpr bool adds = true;
};
struct FatAcidityTag {
    static constexpr bool adds = true;
};
using FattyAcids = Quantity<FattyAcidsTag>; ///< free fatty acids, umol per g of flour
/// mg KOH per 100 g of flour. Not the acid value of the extracted fat (mg KOH per g of fat), which other
/// rules limit: the two are never compared.
using FatAcidity = Quantity<FatAcidityTag>;

/// By the molar mass of KOH.
FatAcidity to_fat_acidity(FattyAcids acids);
/// Limit of fitness for storage; one country's practice.
FatAcidity fat_acidity_limit();
/// Rise per day at 20 C, by class; white and high extraction are assumptions.
FatAcidity fat_acidity_rise(FlourClass flour_class);

/// Days until fat acidity comes from one value to another at a constant rise per day: it grows linearly in
/// time (seen at 55 and 70 % relative humidity). 0 when it is there already; none when it does not rise.
std::optional<double> days_until(FatAcidity limit, FatAcidity now, FatAcidity rise_per_day);

} // namespace mellowbin::aging
