#pragma once

namespace mellowbin::tests {

/// A plant file with two mills, a second flour in one product, one lot a batch in another, a silo and two
/// lines.
inline constexpr const char* mixed_plant = R"({
  "plant": "Mixed plant", "mills": ["Mill", "Weir Mill"],
  "flours": [{"name": "Strong white", "class": "white",
              "windows": [{"property": "protein", "low": 11.5, "high": 14}]},
             {"name": "Rye", "class": "wholemeal",
              "windows": [{"property": "falling_number", "low": 120, "high": 240}]}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Silo 2", "kind": "silo", "air": "moved_silo", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24}, {"name": "Line 2", "friction_factor_c": 24}],
  "products": [
    {"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.8, "high": 13.4}],
     "maturity_target": 0.85, "most_lots": 3, "least_share": 0.1, "oxidant": "ascorbic_acid",
     "house_maximum_ppm": 60, "batch_flour_kg": 100},
    {"name": "Mixed loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.8, "high": 13.4}],
     "second_flour": {"flour": "Rye", "share": 0.25,
                      "windows": [{"property": "falling_number", "low": 120}, {"property": "ash", "high": 2}]},
     "maturity_target": 0.85, "most_lots": 2, "least_share": 0.1, "oxidant": "ascorbic_acid",
     "house_maximum_ppm": 60, "batch_flour_kg": 100},
    {"name": "Traced loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.8, "high": 13.4}], "one_lot_a_batch": true,
     "maturity_target": 0.85, "most_lots": 3, "least_share": 0, "batch_flour_kg": 100}
  ]})";

} // namespace mellowbin::tests
