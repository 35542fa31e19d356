#pragma once

#include "aging/estimate.h"

/// A good lot by default; a test states only what matters to it.
namespace mellowbin::aging {

inline const Day milled{date::year{2026} / 9 / 1};

/// White flour of known milling date and moisture, delivered the day it was milled, in bags at 20 C.
inline StoredFlour stored_flour() {
    return {FlourClass::white, milled, milled, {{milled, Celsius{20}, Air::breathable_bag}}, Moisture{13}};
}

inline StoredFlour stored_at(Celsius temperature, Air air = Air::breathable_bag) {
    auto flour = stored_flour();
    flour.path = {{milled, temperature, air}};
    return flour;
}

inline StoredFlour stored_flour(FlourClass flour_class) {
    auto flour = stored_flour();
    flour.flour_class = flour_class;
    return flour;
}

/// The same, delivered on the day, its milling date not known.
inline StoredFlour of_unknown_milling() {
    auto flour = stored_flour();
    flour.milled_on.reset();
    return flour;
}

inline Day day(int after_milling) { return milled + Days{after_milling}; }

constexpr Maturity nine_tenths{0.9};

} // namespace mellowbin::aging
