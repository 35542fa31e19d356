#include "card_fixture.h"

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

/// As bakes would have it: best at this dose, within a quarter of it, highest baked at twice the dose.
BestDose best_at(double dose) {
    BestDose best;
    best.dose = OxidantPpm{dose};
    best.low = OxidantPpm{0.75 * dose};
    best.high = OxidantPpm{1.25 * dose};
    best.highest_baked = OxidantPpm{2 * dose};
    best.gain = 60;
    best.gain_low = 40;
    best.gain_high = 80;
    best.loaves = 3;
    best.lots = 5;
    return best;
}

/// A line that pours, and a dose of 10 mg/kg by bakes.
CardCase pouring_case() {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.lots[0].best_dose = best_at(10);
    bakery.input.line.stock_solution_g_per_l = 10;
    return bakery;
}

} // namespace

TEST_CASE("A lot that was baked gets the dose its loaves liked best, not the one by its maturity") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.lots[0].best_dose = best_at(20);
    const auto card = bakery.card();
    const auto& oxidant = **card.oxidant;
    CHECK(oxidant.origin == Origin::measured);
    CHECK(oxidant.exact.value() == Approx(20));
    CHECK(oxidant.need.dose.value() == Approx(4.2));
    CHECK(oxidant.exact_g == Approx(4.0)); // 20 mg/kg in 200 kg
    REQUIRE(oxidant.baked);
    CHECK(oxidant.baked->low.value() == Approx(15));
    CHECK(oxidant.baked->high.value() == Approx(25));
    CHECK(!warns(card, CautionAt::oxidant, "starting guess"));
}

TEST_CASE("Two baked lots get the mean of their best doses by mass") {
    CardCase bakery;
    bakery.add("A", 300'000, 0.2);
    bakery.add("B", 100'000, 0.9);
    bakery.input.lots[0].best_dose = best_at(20);
    bakery.input.lots[1].best_dose = best_at(8);
    const auto card = bakery.card();
    const auto& oxidant = **card.oxidant;
    CHECK(oxidant.exact.value() == Approx(17)); // (3·20 + 8)/4
    CHECK(oxidant.baked->low.value() == Approx(12.75));
    CHECK(oxidant.baked->loaves == 6);
    CHECK(oxidant.baked->lots == 5); // the same five stand behind both
    CHECK(oxidant.resulting.value() == Approx(17));
}

TEST_CASE(
    "Where only one of two lots was baked, the other keeps its starting guess, and the card says which") {
    CardCase bakery;
    bakery.add("A", 200'000, 0.2);
    bakery.add("B", 200'000, 0.2);
    bakery.input.lots[0].best_dose = best_at(20);
    const auto card = bakery.card();
    const auto& oxidant = **card.oxidant;
    CHECK(oxidant.origin == Origin::model);
    CHECK(!oxidant.baked);
    CHECK(oxidant.exact.value() == Approx((20 + 4.2) / 2));
    CHECK(warns(card, CautionAt::oxidant, "Lot A is dosed by its bakes, lot B by its maturity"));
    CHECK(warns(card, CautionAt::oxidant, "starting guess"));
}

TEST_CASE("Untreated loaves alone are no bakes to dose by") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.lots[0].best_dose = best_at(0);
    CHECK((**bakery.card().oxidant).origin == Origin::model);
    CHECK((**bakery.card().oxidant).exact.value() == Approx(4.2));
}

TEST_CASE("With a second flour the bakes count for the part that carries the strength") {
    CardCase bakery;
    auto& second = bakery.add("S", 100'000, 0.2);
    second.flour = FlourId{2};
    bakery.add("A", 300'000, 0.2);
    bakery.input.product.second_flour.emplace();
    bakery.input.product.second_flour->flour = FlourId{2};
    bakery.input.product.second_flour->share = 0.25;
    bakery.input.lots[0].has_target = false;
    bakery.input.lots[1].best_dose = best_at(20);
    const auto card = bakery.card();
    const auto& oxidant = **card.oxidant;
    CHECK(oxidant.origin == Origin::measured);
    CHECK(oxidant.exact.value() == Approx(15)); // of all the flour
}

TEST_CASE("The law cuts a dose by bakes, and the card says what the loaves would like") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.lots[0].best_dose = best_at(20);
    bakery.input.product.house_maximum = OxidantPpm{6};
    const auto card = bakery.card();
    CHECK((**card.oxidant).exact.value() == Approx(6));
    CHECK((**card.oxidant).resulting.value() <= 6);
    CHECK(warns(card, CautionAt::oxidant, "By its bakes 20 mg/kg would be best"));
}

TEST_CASE("Flour that has matured since it was baked asks to be baked again") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.62);
    bakery.input.lots[0].best_dose = best_at(20);
    bakery.input.lots[0].baked_at = Maturity{0.4};
    CHECK(warns(bakery.card(), CautionAt::oxidant, "from 40 to 62 %"));
    bakery.input.lots[0].baked_at = Maturity{0.58};
    CHECK(!warns(bakery.card(), CautionAt::oxidant, "matured since"));
}

TEST_CASE(
    "How much less a lot takes for maturing since its bakes is told with its range, and so is nothing else") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.85);
    auto& best = bakery.input.lots[0].best_dose.emplace(best_at(20));
    best.baked_at = Maturity{0.62};
    best.dosed_at = Maturity{0.85};
    best.when_baked = OxidantPpm{24};
    best.fallen = {1, 4, 9};
    bakery.input.lots[0].baked_at = Maturity{0.62};
    CHECK(warns(
        bakery.card(), CautionAt::oxidant,
        "Lot A was baked at 62 % matured, for this dough 85 %: 4.0 mg/kg less than its loaves liked then "
        "(1.0 to 9.0, in 80 of 100)"));
    CHECK(!warns(bakery.card(), CautionAt::oxidant, "its need may have fallen"));
    best.dosed_at = Maturity{0.64};
    CHECK(!warns(bakery.card(), CautionAt::oxidant, "was baked at"));
}

TEST_CASE("An optimum at the end of the ladder is told, with the highest dose baked") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.lots[0].best_dose = best_at(20);
    CHECK(!warns(bakery.card(), CautionAt::oxidant, "may lie above"));
    bakery.input.lots[0].best_dose->is_at_the_end = true;
    CHECK(warns(bakery.card(), CautionAt::oxidant, "lot A may lie above the 40 mg/kg baked"));
}

TEST_CASE("Bakes give a bromate dose where the protein is not known, and what it does is left open") {
    CardCase bakery;
    auto& lot = bakery.add("A", 400'000, 0.3);
    lot.certificate = Certificate{};
    lot.certificate.set({Property::moisture, 14.0, Basis::as_is(), "", 5.7});
    lot.certificate.set({Property::absorption, 62.0, Basis::at(Moisture{14}), "", 5.7});
    bakery.input.product.oxidant = Substance::potassium_bromate;
    bakery.input.lots[0].best_dose = best_at(15);
    const auto card = bakery.card();
    REQUIRE((card.oxidant && *card.oxidant));
    CHECK((**card.oxidant).exact.value() == Approx(15));
    CHECK((**card.oxidant).effect.maturity.value() == Approx(0.3));
    CHECK(warns(card, CautionAt::oxidant, "how much of the missing maturity that makes up for is not known"));
    CHECK(warns(card, CautionAt::oxidant, "The protein is not known"));
    CHECK(warns(card, CautionAt::oxidant, "late proof"));
}

TEST_CASE("The dose is poured from the solution at hand, at its own strength") {
    auto bakery = pouring_case();
    bakery.input.solution = SolutionAtHand{5, "made 04:10 by Ines, keeps until 04:10 tomorrow", false};
    const auto card = bakery.card();
    const auto& oxidant = **card.oxidant;
    REQUIRE(oxidant.pouring);
    CHECK(oxidant.stock_g_per_l == 5);
    CHECK(oxidant.pouring->rounded.value() == 400); // 10 mg/kg in 200 kg is 2 g
    CHECK(oxidant.exact_g == Approx(2));
    REQUIRE(oxidant.solution);
    CHECK(oxidant.solution->words == "made 04:10 by Ines, keeps until 04:10 tomorrow");
    CHECK(!warns(card, CautionAt::oxidant, "No stock solution"));
}

TEST_CASE("Nothing is poured from a solution past its day: the card speaks grams alone") {
    auto bakery = pouring_case();
    bakery.input.solution = SolutionAtHand{5, "made yesterday 04:10 by Ines, kept until 04:10", true};
    const auto card = bakery.card();
    REQUIRE((card.oxidant && *card.oxidant));
    CHECK_FALSE((**card.oxidant).pouring);
    CHECK((**card.oxidant).weighing->rounded_g == Approx(2)); // 10 mg/kg in 200 kg
    CHECK(card.water->stock_solution.value() == 0);
    CHECK(warns(card, CautionAt::oxidant, "time is over (made yesterday 04:10 by Ines"));
}

TEST_CASE("Where no solution is logged the card speaks grams, and says which solution could be made") {
    auto bakery = pouring_case();
    const auto card = bakery.card();
    CHECK_FALSE((**card.oxidant).pouring);
    CHECK((**card.oxidant).weighing->rounded_g == Approx(2));
    CHECK(warns(card, CautionAt::oxidant,
                "No stock solution is logged: weigh these grams, or make one of 10 g/L"));
}

TEST_CASE("What does not dissolve, and an enzyme, are weighed whatever solution is logged") {
    for (const auto substance :
         {Substance::azodicarbonamide, Substance::calcium_peroxide, Substance::glucose_oxidase,
          Substance::calcium_iodate, Substance::benzoyl_peroxide, Substance::acetone_peroxide})
        CHECK_FALSE(may_be_dissolved(substance));
    CHECK(may_be_dissolved(Substance::ascorbic_acid));
    CHECK(may_be_dissolved(Substance::potassium_bromate));
    auto bakery = pouring_case();
    bakery.input.product.oxidant = Substance::azodicarbonamide; // by its bakes: nothing else doses it
    bakery.input.solution = SolutionAtHand{10, "made 04:10 by Ines", false};
    const auto card = bakery.card();
    REQUIRE((card.oxidant && *card.oxidant));
    CHECK_FALSE((**card.oxidant).pouring);
    CHECK((**card.oxidant).weighing);
    CHECK(warns(card, CautionAt::oxidant, "does not dissolve in water")); // ICSC 0380: none
}

TEST_CASE("What the scale cannot weigh is told in millilitres of a round solution and grams of a premix") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.2);
    bakery.input.lots[0].best_dose = best_at(2); // 0.4 g in 200 kg, below the 2 g that 0.1 g weighs to 5 %
    const auto card = bakery.card();
    CHECK(warns(card, CautionAt::oxidant, "pour 40 mL of a stock solution of 10 g/L"));
    CHECK(
        warns(card, CautionAt::oxidant, "weigh 40 g of a 1 % premix with flour and take 40 g off the flour"));
    bakery.input.lots[0].best_dose = best_at(0.5); // 0.1 g: 10 mL of 10 g/L would be poured too roughly
    CHECK(warns(bakery.card(), CautionAt::oxidant, "pour 20 mL of a stock solution of 5 g/L"));
    bakery.input.product.oxidant = Substance::azodicarbonamide;
    bakery.input.lots[0].best_dose = best_at(2);
    const auto powder = bakery.card();
    CHECK(warns(powder, CautionAt::oxidant, "weigh 40 g of a 1 % premix"));
    CHECK(!warns(powder, CautionAt::oxidant, "stock solution")); // it does not dissolve
}

TEST_CASE("A lot's own glutathione scales the starting guess, and the card says so with its range") {
    CardCase bakery;
    bakery.add("A", 200'000, 0.2);
    bakery.add("B", 200'000, 0.2);
    const auto usual = bakery.card();
    CHECK((**usual.oxidant).need.dose.value() == Approx(4.2));
    CHECK((**usual.oxidant).need.low.value() == Approx(0.7 * 1.5));
    CHECK((**usual.oxidant).need.high.value() == Approx(0.7 * 20));
    CHECK(
        warns(usual, CautionAt::oxidant, "starting guess: 4.2 mg/kg of ascorbic acid for 70 % of the aging"));
    CHECK(warns(usual, CautionAt::oxidant, "95 % between 1.0 and 14.0"));
    // 43 % of 100 nmol/g, two to one of 176.12 g/mol, over 40 %: 9.47 mg/kg for the whole of the aging, by
    // hand.
    bakery.input.lots[0].glutathione = 100;
    CHECK((**bakery.card().oxidant).need.dose.value() == Approx(0.7 * (9.47 + 6) / 2).margin(0.01));
    bakery.input.lots[1].glutathione = 100;
    const auto measured = bakery.card();
    CHECK((**measured.oxidant).need.dose.value() == Approx(0.7 * 9.47).margin(0.01));
    CHECK(warns(measured, CautionAt::oxidant, "by its own glutathione, 100 nmol/g when fresh"));
    const auto width = [](const Card& card) {
        return (**card.oxidant).need.high.value() / (**card.oxidant).need.low.value();
    };
    CHECK(width(measured) < width(usual) / 2); // what flours differ by is no doubt any more
    CHECK(width(measured) > 3);
}
