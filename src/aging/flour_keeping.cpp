#include "aging/flour_keeping.h"

#include "core/literature/constants.h"

namespace mellowbin::aging {

namespace lit = literature;

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

} // namespace mellowbin::aging
