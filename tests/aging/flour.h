#pragma once

#include "aging/estimate.h"

/// A good lot by default; a test states only what matters to it.
namespace mellowbin::aging {

inline const Day milled{date::year{2026} / 9 / 1};

/// A place that always has this temperature.
inline ClimatePtr climate_at(Celsius temperature, Air air = Air::breathable_bag) {
    Place place;
    place.temperature = temperature;
    place.air = air;
    return std::make_shared<ClimateCourse>(place);
}

/// In one place from a day on.
inline StoragePath stay_from(Day day, ClimatePtr climate) { return {{std::move(climate), days_of(day)}}; }

/// From another day on somewhere else.
inline StoragePath then(StoragePath path, Day day, ClimatePtr climate) {
    path.back().until = days_of(day);
    path.push_back({std::move(climate), days_of(day)});
    return path;
}

/// White flour of known milling date and moisture, delivered the day it was milled, in bags at 20 C, its
/// temperature taken as known.
inline StoredFlour stored_flour() {
    return {FlourClass::white, milled,        milled, stay_from(milled, climate_at(Celsius{20})),
            Moisture{13},      CelsiusStep{0}};
}

inline StoredFlour stored_at(Celsius temperature, Air air = Air::breathable_bag) {
    auto flour = stored_flour();
    flour.path = stay_from(milled, climate_at(temperature, air));
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
