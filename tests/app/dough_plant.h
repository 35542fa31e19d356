#pragma once

#include "small_plant.h"
#include "support/catch.h"

namespace mellowbin::tests {

/// A plant that doses young flour: with a stock solution on one line, on a scale on the other.
inline constexpr const char* dosing_plant = R"({
  "plant": "Dosing plant", "mills": ["Mill"],
  "flours": [{"name": "Strong white", "class": "white", "windows": [{"property": "protein", "low": 11.5, "high": 14}]}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Bay 2", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24, "room_c": 22, "tap_water_c": 15, "water_step_kg": 0.1,
             "stock_solution_g_per_l": 7.5},
            {"name": "Line 2", "friction_factor_c": 24, "room_c": 22, "tap_water_c": 15, "water_step_kg": 0.1,
             "oxidant_scale_step_g": 0.01, "oxidant_scale_error_g": 0.01}],
  "products": [
    {"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.8, "high": 13.4}],
     "maturity_target": 0.9, "most_lots": 3, "least_share": 0.1, "oxidant": "ascorbic_acid", "house_maximum_ppm": 60,
     "dough_temperature_c": 27, "batch_flour_kg": 100, "fermentation_minutes": 60,
     "ingredients": [{"name": "Salt", "percent_of_flour": 2}], "bread_yield": 1.45},
    {"name": "Plain loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.8, "high": 13.4}],
     "maturity_target": 0.85, "most_lots": 2, "least_share": 0.1, "batch_flour_kg": 100}
  ]})";

/// The same, whose pan bread takes 0.3 % of calcium propionate: within the figure of Canada, which nobody has
/// confirmed.
inline std::string preserving_plant() {
    std::string plant = dosing_plant;
    const std::string at = "\"bread_yield\"";
    return plant.insert(plant.find(at), "\"propionate_percent\": 0.3, ");
}

/// A lot milled three weeks ago: far from mature.
inline LotDraft young_draft(const SmallPlant& plant, const std::string& code) {
    auto draft = plant.draft(code);
    draft.milled_on = "2026-11-05";
    draft.delivered_on = "2026-11-08";
    return draft;
}

} // namespace mellowbin::tests
