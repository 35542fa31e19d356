#pragma once

#include "exchange/plant_file.h"
#include "support/iso.h"

namespace mellowbin::tests {

/// A product of which nothing is as it is where nobody says.
inline Product full_product() {
    Product p;
    p.name = "Mixed loaf";
    p.market = "EU";
    p.food = FoodClass::whole_wheat_bread;
    p.sold_as = SoldAs::prepacked_other;
    p.windows = {{Property::protein, 12, 13.5, ""}, {Property::starch_damage, {}, 9, "AACC 76-31"}};
    p.maturity_target = Maturity{0.853};
    p.most_lots = 2;
    p.least_share = 0.15;
    p.one_lot_a_batch = true;
    p.second_flour = SecondFlour{{}, 0.123, {{Property::falling_number, 120, 250, "ISO 3093"}}};
    p.oxidant = Substance::ascorbic_acid;
    p.house_maximum = OxidantPpm{60};
    p.water_offset = AbsorptionPoints{-1.5};
    p.is_offset_assumed = false;
    p.dough_temperature = Celsius{25.5};
    p.fermentation_minutes = 240;
    p.mixing_minutes = 6.5;
    p.batch_flour = Kilograms{120.5};
    p.ingredients = {
        {"Salt", 2, 0, {}}, {"Compressed yeast", 0.8, 70, {}}, {"Whole egg", 12, 76.2, Celsius{4.5}}};
    p.propionate_percent = 0.3;
    p.bread_yield = 1.52;
    p.preservative = Preservative::cultured_wheat;
    p.cultured_acid_percent = 9.5;
    p.enzyme = "maltogenic amylase";
    p.bread_erh = 95.5;
    p.process = DoughProcess::sponge;
    p.most_fermentation_minutes = 300;
    p.maturity_per_hour = 0.04;
    return p;
}

inline Line full_line() {
    Line l;
    l.name = "Line 2";
    l.friction_factor = CelsiusStep{14.5};
    l.mixing_energy_kj_per_kg = 32.5;
    l.room = Celsius{24};
    l.tap_water = Celsius{12};
    l.coldest_water = Celsius{3};
    l.most_ice = 0.412;
    l.oxidant_scale_step_g = 0.01;
    l.oxidant_scale_error_g = 0.02;
    l.stock_solution_g_per_l = 20;
    l.water_step_kg = 0.5;
    l.ice_temperature = Celsius{-6};
    return l;
}

/// A plant with every field, every list, records that are retired and choices of its own.
inline exchange::PlantDescription full_plant() {
    exchange::PlantDescription plant;
    plant.plant = "Full plant";
    plant.mills = {{{}, "Weir Mill", false}, {{}, "Old Mill", true}};
    plant.flours = {{{},
                     "Strong white",
                     FlourClass::high_extraction,
                     {{Property::protein, 11.5, {}, ""}, {Property::ash, {}, 0.62, ""}},
                     false},
                    {{}, "Rye", FlourClass::wholemeal, {}, true}};
    plant.places = {{{},
                     "Silo 1",
                     PlaceKind::silo,
                     Air::moved_silo,
                     Celsius{18.5},
                     RelativeHumidity{0.625},
                     {{day_from_iso("2026-06-01"), Celsius{24}}, {day_from_iso("2026-09-01"), Celsius{-2.5}}},
                     false},
                    {{}, "Bay 1", PlaceKind::bay, Air::inert, Celsius{20}, {}, {}, true}};
    auto retired_line = full_line();
    retired_line.name = "Line 1";
    retired_line.is_retired = true;
    plant.lines = {full_line(), retired_line};
    auto retired_product = full_product();
    retired_product.name = "Rye loaf";
    retired_product.second_flour.reset();
    retired_product.is_retired = true;
    plant.products = {{full_product(), "Strong white", "Rye"}, {retired_product, "Rye", ""}};
    plant.door_checks = {"Bags dry and not torn", "Below [temperature]"};
    plant.test_errors = {{"alveograph_w", "4"}, {"glutathione", "6.5"}};
    plant.settings = {{"time_zone", "Europe/Lisbon"}, {"warm_flour", "32.5"}, {"weight_short", "1000000"}};
    return plant;
}

} // namespace mellowbin::tests
