#include "dough/water.h"
#include "support/catch.h"
#include "support/dough_formulas.h"

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

Certificate flour(std::optional<double> moisture, std::optional<double> absorption_14) {
    Certificate certificate;
    if (moisture)
        certificate.set({Property::moisture, *moisture, Basis::as_is(), "", wheat_nitrogen_factor});
    if (absorption_14)
        certificate.set(
            {Property::absorption, *absorption_14, Basis::at(Moisture{14}), "", wheat_nitrogen_factor});
    return certificate;
}

} // namespace

TEST_CASE("Drier flour takes more water: 60 % at 14 is 63.72 kg on 100 kg at 12 % moisture") {
    const auto dry = flour(12, 60);
    const std::vector<WaterLot> lots{{"Lot A", &dry, Kilograms{100}}};
    const auto water = dough_water(lots, AbsorptionPoints{0}, AbsorptionPoints{0}, 0.1);
    REQUIRE(water);
    CHECK(water->exact.value() == Approx(63.721).margin(0.0005));
    CHECK(water->as_is.value() == Approx(63.721).margin(0.0005));
    CHECK(water->rounded.value() == Approx(63.7));
    CHECK(water->resulting.value() < water->target.value());
    CHECK(water->resulting.value() == Approx(60).margin(0.03));
}

TEST_CASE("The water of a blend is the sum over its lots, each at its own moisture") {
    const auto dry = flour(12, 64);
    const auto damp = flour(15, 58);
    const std::vector<WaterLot> both{{"Lot A", &dry, Kilograms{60}}, {"Lot B", &damp, Kilograms{40}}};
    const std::vector<WaterLot> first{{"Lot A", &dry, Kilograms{60}}};
    const std::vector<WaterLot> second{{"Lot B", &damp, Kilograms{40}}};
    const AbsorptionPoints none{0};
    CHECK(dough_water(both, none, none, 0.1)->exact.value() ==
          Approx(dough_water(first, none, none, 0.1)->exact.value() +
                 dough_water(second, none, none, 0.1)->exact.value()));
}

TEST_CASE("Offset and gluten add points on flour at 14 %") {
    const auto dry = flour(12, 60);
    const std::vector<WaterLot> lots{{"Lot A", &dry, Kilograms{100}}};
    const auto water = dough_water(lots, AbsorptionPoints{2}, for_added_gluten(2), 0.1);
    REQUIRE(water);
    CHECK(water->target.value() == Approx(65)); // 60 + 2 + 1.5 for each % of gluten (Cauvain & Young Q 2.7)
    CHECK(water->exact.value() > 68);
}

TEST_CASE("A lot without absorption or moisture is named and refused, never taken as zero") {
    const auto good = flour(14, 60);
    const auto no_absorption = flour(14, {});
    const auto no_moisture = flour({}, 60);
    const std::vector<WaterLot> lots{{"Lot A", &good, Kilograms{50}},
                                     {"Lot B", &no_absorption, Kilograms{25}},
                                     {"Lot C", &no_moisture, Kilograms{25}}};
    const auto water = dough_water(lots, AbsorptionPoints{0}, AbsorptionPoints{0}, 0.1);
    REQUIRE(!water);
    REQUIRE(water.refusals().size() == 2);
    CHECK(water.refusals()[0].field == "Lot B");
    CHECK_THAT(water.refusals()[0].what, Catch::Matchers::Contains("absorption"));
    CHECK(water.refusals()[1].field == "Lot C");
    CHECK_THAT(water.refusals()[1].what, Catch::Matchers::Contains("moisture"));
}

TEST_CASE("An absorption without a stated basis is refused") {
    auto unclear = flour(14, {});
    unclear.set({Property::absorption, 60, Basis{}, "", wheat_nitrogen_factor});
    const std::vector<WaterLot> lots{{"Lot A", &unclear, Kilograms{50}}};
    CHECK(!dough_water(lots, AbsorptionPoints{0}, AbsorptionPoints{0}, 0.1));
}

TEST_CASE("A jump of more than two points since the last run is worth a word") {
    CHECK(absorption_jump(Absorption14{64.1}, Absorption14{62}));
    CHECK(absorption_jump(Absorption14{59.9}, Absorption14{62}));
    CHECK(!absorption_jump(Absorption14{63.9}, Absorption14{62}));
    CHECK_THAT(*absorption_jump(Absorption14{59}, Absorption14{62}),
               Catch::Matchers::Contains("3.0 points lower"));
}
