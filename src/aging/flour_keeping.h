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

/// Limit of fitness for storage; one country's practice.
FatAcidity fat_acidity_limit();
/// Rise per day at 20 C, by class; white and high extraction are assumptions.
FatAcidity fat_acidity_rise(FlourClass flour_class);

} // namespace mellowbin::aging
