#include "card_fixture.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::dough;

TEST_CASE("Young flour gets ascorbic acid: exact, rounded to the scale, and what that comes to") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    const auto card = bakery.card();
    REQUIRE(card.oxidant);
    REQUIRE(*card.oxidant);
    const auto& oxidant = **card.oxidant;
    CHECK(oxidant.need.missing.value() == Approx(0.7));
    CHECK(oxidant.exact.value() == Approx(4.2)); // 0.7 of 6
    REQUIRE(oxidant.weighing);
    CHECK(oxidant.weighing->exact_g == Approx(0.84));
    CHECK(oxidant.weighing->rounded_g == Approx(0.8));
    CHECK(oxidant.resulting.value() == Approx(4));
    CHECK(oxidant.judged.is_permitted());
    CHECK(oxidant.effect.maturity.value() == Approx(0.2 + 4.0 / 6));
    CHECK_THAT(oxidant.room.words, Catch::Matchers::Contains("182.3013"));
    CHECK(warns(card, CautionAt::oxidant, "10 g too much"));
    CHECK(warns(card, CautionAt::oxidant, "Bake this flour"));
}

TEST_CASE("Mature flour gets none, and no hazard is shouted for it") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.95);
    const auto card = bakery.card();
    REQUIRE((card.oxidant && *card.oxidant));
    CHECK((**card.oxidant).resulting.value() == 0);
    CHECK(cautions_at(card, CautionAt::oxidant).empty());
}

TEST_CASE("A stock solution's millilitres are taken off the dough water") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.line.water_step_kg = 0.01;
    const auto dry = bakery.card();
    bakery.input.line.stock_solution_g_per_l = 7.5;
    bakery.input.solution = SolutionAtHand{7.5, "made 04:10 by Ines", false};
    const auto wet = bakery.card();
    REQUIRE((**wet.oxidant).pouring);
    CHECK((**wet.oxidant).pouring->rounded.value() == Approx(112)); // 4.2·200/7.5
    CHECK(wet.water->stock_solution.value() == Approx(0.112));
    CHECK(wet.water->told.value() == Approx(dry.water->told.value() - 0.112).margin(0.0101));
    CHECK(wet.water->resulting.value() == Approx(dry.water->resulting.value()).margin(0.01));
}

TEST_CASE("A dose too small for the scale asks for a premix or a solution") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.75);
    CHECK(warns(bakery.card(), CautionAt::oxidant, "stock solution"));
}

TEST_CASE("Where only an unconfirmed row permits, no dose is given and the row is named") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.product.market = "EU";
    const auto card = bakery.card();
    REQUIRE((card.oxidant && *card.oxidant));
    CHECK((**card.oxidant).need.dose.value() > 4);
    CHECK((**card.oxidant).exact.value() == 0);
    CHECK(!(**card.oxidant).weighing);
    CHECK(is_withheld(**card.oxidant));
    const auto verdict = verdict_of(bakery.input, card);
    REQUIRE(verdict.has(MixReason::oxidant_withheld));
    CHECK_THAT(verdict.against.front().words, Catch::Matchers::Contains("confirm the row"));
    CHECK_THAT(verdict.against.front().lifted_by, Catch::Matchers::Contains("wait, blend or ferment longer"));
}

TEST_CASE("The plant's own confirmation opens the same row") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.product.market = "EU";
    auto rows = shipped_limits();
    for (auto& row : rows)
        if (row.market == "EU" && row.substance == Substance::ascorbic_acid) {
            row.is_confirmed = true;
            row.confirmed_by = "quality";
        }
    bakery.input.law.rows = rows;
    CHECK((**bakery.card().oxidant).resulting.value() == Approx(4));
}

TEST_CASE("A house maximum cuts the dose, and the card says what the dough lacks") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2).mill_additions = {{Substance::ascorbic_acid, OxidantPpm{2}}};
    bakery.input.product.house_maximum = OxidantPpm{4};
    const auto card = bakery.card();
    const auto& oxidant = **card.oxidant;
    CHECK(oxidant.room.room.value() == Approx(2));
    CHECK(oxidant.weighing->rounded_g + 0.1 <=
          0.4 + 1e-9); // 2 mg/kg in 200 kg is 0.4 g, less the scale's error
    CHECK(oxidant.resulting.value() + 2 <= 4);
    CHECK(oxidant.judged.is_permitted());
    CHECK(warns(card, CautionAt::oxidant, "would be needed"));
    CHECK(warns(card, CautionAt::oxidant, "Rounded down"));
}

TEST_CASE("A bromated lot makes bread for Texas but no card for Canada, nor for California in 2027") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.9).mill_additions = {{Substance::potassium_bromate, OxidantPpm{25}}};
    bakery.input.product.market = "US-TX";
    CHECK(make_card(bakery.input));
    bakery.input.product.market = "US-CA";
    CHECK(make_card(bakery.input));
    bakery.input.run.day = day_from_iso("2027-01-01");
    const auto california = make_card(bakery.input);
    REQUIRE(!california);
    CHECK(california.refusals().front().field == "Lot A");
    CHECK_THAT(california.refusals().front().what, Catch::Matchers::Contains("AB 418"));
    bakery.input.run.day = day_from_iso("2026-11-25");
    bakery.input.product.market = "Canada";
    CHECK(!make_card(bakery.input));
}

TEST_CASE("The mill's part is carried by mass and counted with the bakery's") {
    CardCase bakery;
    bakery.add("A", 240'000, 0.3).mill_additions = {{Substance::azodicarbonamide, OxidantPpm{30}}};
    bakery.add("B", 160'000, 0.3);
    const auto card = bakery.card();
    REQUIRE(card.carried.size() == 1);
    CHECK(card.carried[0].dose.value() == Approx(18));
    // How much of the missing age they make up for no figure says: the guess of ascorbic acid stands, and
    // that.
    CHECK((**card.oxidant).need.dose.value() == Approx(0.6 * 6));
    CHECK(warns(card, CautionAt::oxidant, "18 mg/kg of Azodicarbonamide strengthen too"));
}

TEST_CASE("Of another oxidant than ascorbic acid only bakes say the dose, and mature flour asks for none") {
    for (const auto substance : {Substance::potassium_bromate, Substance::potassium_iodate,
                                 Substance::azodicarbonamide, Substance::calcium_peroxide}) {
        INFO(name_of(substance));
        CardCase bakery;
        bakery.add("A", 400'000, 0.3);
        bakery.input.product.oxidant = substance;
        const auto young = bakery.card();
        REQUIRE(young.oxidant);
        REQUIRE(!*young.oxidant);
        CHECK_THAT(young.oxidant->refusals().front().what,
                   Catch::Matchers::Contains("missing maturity is not known"));
        CHECK_THAT(young.oxidant->refusals().front().remedy, Catch::Matchers::Contains("Bake a series"));
        CHECK(verdict_of(bakery.input, young).has(MixReason::oxidant_not_known));
        CHECK(young.water);
        bakery.input.lots.front().maturity = Maturity{0.95};
        const auto mature = bakery.card();
        REQUIRE((mature.oxidant && *mature.oxidant));
        CHECK((**mature.oxidant).resulting.value() == 0);
    }
}

TEST_CASE("Bromate from the mill beyond what the protein takes up is warned of as over-oxidation") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.9).mill_additions = {{Substance::potassium_bromate, OxidantPpm{45}}};
    CHECK(warns(bakery.card(), CautionAt::oxidant, "short and dry"));
}

TEST_CASE("Without protein ascorbic acid is dosed all the same, and the bromate of the mill is not weighed "
          "against it") {
    CardCase bakery;
    auto& lot = bakery.add("A", 400'000, 0.3);
    lot.certificate = Certificate{};
    lot.certificate.set({Property::moisture, 14.0, Basis::as_is(), "", 5.7});
    lot.certificate.set({Property::absorption, 62.0, Basis::at(Moisture{14}), "", 5.7});
    lot.mill_additions = {{Substance::potassium_bromate, OxidantPpm{10}}};
    const auto card = bakery.card();
    REQUIRE((card.oxidant && *card.oxidant));
    CHECK((**card.oxidant).need.dose.value() == Approx(0.6 * 6));
    CHECK(warns(card, CautionAt::oxidant, "The protein is not known"));
}

TEST_CASE("Weighing bromate stands under its hazards and the care of trained staff") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.3);
    bakery.input.product.oxidant = Substance::potassium_bromate;
    BestDose baked;
    baked.dose = OxidantPpm{15};
    baked.highest_baked = OxidantPpm{30};
    bakery.input.lots[0].best_dose = baked;
    const auto card = bakery.card();
    CHECK((**card.oxidant).resulting.value() > 0);
    CHECK(warns(card, CautionAt::oxidant, "Strong oxidiser"));
    CHECK(warns(card, CautionAt::oxidant, "trained staff"));
    for (const auto substance : all_substances())
        CHECK(!hazards_of(substance).empty());
}
