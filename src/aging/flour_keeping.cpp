#include "aging/flour_keeping.h"

#include "core/literature/constants.h"

namespace mellowbin::aging {

namespace lit = literature;

FatAcidity to_fat_acidity(FattyAcids acids) {
    return FatAcidity{acids.value() * lit::aging_fat_acidity_per_ffa.value};
}

FatAcidity fat_acidity_limit() { return FatAcidity{lit::aging_fat_acidity_limit.value}; }

FatAcidity fat_acidity_rise(FlourClass flour_class) {
    switch (flour_class) {
    case FlourClass::white:
        return FatAcidity{lit::aging_fat_acidity_rate_white.value};
    case FlourClass::high_extraction:
        return FatAcidity{lit::aging_fat_acidity_rate_high_extraction.value};
    case FlourClass::wholemeal:
        return FatAcidity{lit::aging_fat_acidity_rate_wholemeal.value};
    }
    return {};
}

std::optional<double> days_until(FatAcidity limit, FatAcidity now, FatAcidity rise_per_day) {
    if (now >= limit)
        return 0.0;
    if (rise_per_day.value() <= 0)
        return {};
    return (limit - now) / rise_per_day;
}

} // namespace mellowbin::aging
