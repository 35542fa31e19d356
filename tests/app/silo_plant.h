#pragma once

#include "app/acts/intake.h"
#include "app/acts/lots.h"
#include "app/acts/silos.h"
#include "app/acts/stock.h"
#include "small_plant.h"

#include <string>

namespace mellowbin::tests {

inline constexpr const char* silo_plant = R"({
  "plant": "With a silo", "mills": ["Mill"],
  "flours": [{"name": "Strong white", "class": "white"}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Bay 2", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Silo 1", "kind": "silo", "air": "moved_silo", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24, "room_c": 22, "tap_water_c": 15, "water_step_kg": 0.1}],
  "products": [{"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
                "windows": [{"property": "protein", "low": 11, "high": 14}],
                "maturity_target": 0.85, "most_lots": 3, "least_share": 0.1, "batch_flour_kg": 100}]})";

/// A plant on 25 November 2026 with two bays and a silo, in which nothing lies yet.
struct SiloPlant : SmallPlant {
    SiloPlant() : SmallPlant(day_from_iso("2026-11-25"), silo_plant) {}

    LotId comes(const std::string& code, const std::string& place, const std::string& kg,
                const std::string& protein = "12.5") {
        auto lot = draft(code);
        lot.place = place;
        lot.mass_kg = kg;
        lot.figure(Property::protein) = {Property::protein, protein, "14 % moisture", "", ""};
        return released_lot(lot);
    }
    PlaceId place(const std::string& name) {
        for (const auto& [id, known] : app().lots().places)
            if (known == name)
                return id;
        throw std::runtime_error("no place " + name);
    }
};

} // namespace mellowbin::tests
