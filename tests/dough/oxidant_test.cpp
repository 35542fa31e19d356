#include "dough/law.h"
#include "dough/limits.h"
#include "dough/oxidant.h"
#include "support/catch.h"
#include "support/dough_formulas.h"
#include "support/iso.h"

#include <cmath>
#include <string>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

const FlourForOxidant plain{Protein14{11.5}, {}};

double dose(Substance substance, double maturity, double target = 1, FlourForOxidant flour = plain) {
    const auto need = oxidant_for(substance, Maturity{maturity}, Maturity{target}, flour);
    REQUIRE(need);
    return need->dose.value();
}

} // namespace

TEST_CASE("The guess of ascorbic acid is 6 mg/kg for the whole of the aging, 95 % from 1.5 to 20") {
    CHECK(dose(Substance::ascorbic_acid, 0) == 6);
    CHECK(dose(Substance::ascorbic_acid, 0.5) == 3);
    const auto guess = ascorbic_acid_for_all_aging();
    CHECK(guess.low.value() == 1.5);
    CHECK(guess.high.value() == 20);
}

TEST_CASE("By the glutathione of seven flours, 18 to 100 nmol/g, it would be 1.7 to 9.5 mg/kg, not 14.1") {
    // Belitz, Grosch & Schieberle, Food Chemistry 4th ed., table 15.26; 43 % of it goes (Chen & Schofield
    // 1996), two to one, 40 % of the acid at work.
    CHECK(ascorbic_acid_for_all_aging(18).likely.value() == Approx(1.7).margin(0.05));
    CHECK(ascorbic_acid_for_all_aging(100).likely.value() == Approx(9.5).margin(0.05));
    CHECK(ascorbic_acid_for_all_aging(149).likely.value() == Approx(14.1).margin(0.05)); // their own flour
    for (const double measured : {18.0, 149.0}) {
        const auto guess = ascorbic_acid_for_all_aging(measured);
        CHECK(guess.high.value() / guess.likely.value() == Approx(guess.likely.value() / guess.low.value()));
        CHECK(guess.high.value() / guess.low.value() < 20 / 1.5);
    }
}

TEST_CASE("Flour that is mature enough asks for nothing") {
    CHECK(dose(Substance::ascorbic_acid, 0.9, 0.9) == 0);
    CHECK(dose(Substance::azodicarbonamide, 0.95, 0.9) == 0);
}

TEST_CASE("The mill's ascorbic acid is taken off the bakery's dose, its other oxidants are not") {
    const std::vector<MillAddition> mill{{Substance::ascorbic_acid, OxidantPpm{2}}};
    CHECK(dose(Substance::ascorbic_acid, 0.4, 0.9, {Protein14{11.5}, mill}) ==
          Approx(dose(Substance::ascorbic_acid, 0.4, 0.9) - 2));
    const std::vector<MillAddition> plenty{{Substance::ascorbic_acid, OxidantPpm{40}}};
    CHECK(dose(Substance::ascorbic_acid, 0.4, 0.9, {Protein14{11.5}, plenty}) == 0);
    const std::vector<MillAddition> bromate{{Substance::potassium_bromate, OxidantPpm{20}}};
    CHECK(dose(Substance::ascorbic_acid, 0.4, 0.9, {Protein14{11.5}, bromate}) ==
          dose(Substance::ascorbic_acid, 0.4, 0.9));
}

TEST_CASE("No oxidant is turned into ascorbic acid or maturity: 80 of bromate lift neither maturity nor its "
          "index") {
    // Arch. Latinoam. Nutr. 1993, 43(3):234-240, abstract: 20 mg/kg of ascorbic acid baked like 80 of
    // potassium bromate, where their equivalents would have said 6.3.
    for (const auto substance : {Substance::potassium_bromate, Substance::potassium_iodate,
                                 Substance::azodicarbonamide, Substance::calcium_peroxide}) {
        INFO(name_of(substance));
        CHECK(!oxidant_for(substance, Maturity{0.5}, Maturity{1}, plain));
        const std::vector<MillAddition> doses{{substance, OxidantPpm{80}}};
        const auto effect = effect_of(Maturity{0.5}, doses, Protein14{11.5});
        CHECK(effect.maturity == Maturity{0.5});
        CHECK(effect.strength_index == 100);
        REQUIRE(effect.reservations.size() == 1);
        CHECK_THAT(effect.reservations.front(), Catch::Matchers::Contains("is not known"));
    }
}

TEST_CASE("Cysteine, bleaches and enzymes are no answer to missing strength") {
    for (const auto substance :
         {Substance::l_cysteine, Substance::l_cysteine_hydrochloride, Substance::benzoyl_peroxide,
          Substance::acetone_peroxide, Substance::glucose_oxidase}) {
        INFO(name_of(substance));
        CHECK(!oxidant_for(substance, Maturity{0.5}, Maturity{1}, plain));
    }
}

TEST_CASE("The dose lifts the dough to the maturity it was asked for") {
    const std::vector<MillAddition> doses{
        {Substance::ascorbic_acid, OxidantPpm{dose(Substance::ascorbic_acid, 0.35, 0.9)}}};
    const auto effect = effect_of(Maturity{0.35}, doses, Protein14{11.5});
    CHECK(effect.maturity.value() == Approx(0.9));
    CHECK(effect.strength_index > 100);
    CHECK(!effect.is_over_oxidised());
}

TEST_CASE(
    "All accessible sulfhydryl at 11.5 % protein takes 12.8 to 24.0 of bromate; beyond is over-oxidised") {
    // Bushuk 1961: 4.0 to 7.5 ueq per g of protein
    const std::vector<MillAddition> below{{Substance::potassium_bromate, OxidantPpm{12.8}}};
    const std::vector<MillAddition> above{{Substance::potassium_bromate, OxidantPpm{24.1}}};
    CHECK(!effect_of(Maturity{0.5}, below, Protein14{11.5}).is_over_oxidised());
    CHECK(effect_of(Maturity{0.5}, above, Protein14{11.5}).is_over_oxidised());
}

TEST_CASE("Ascorbic acid is never called too much for the protein: no overdose is known of it") {
    const std::vector<MillAddition> lots{{Substance::ascorbic_acid, OxidantPpm{200}}};
    const auto effect = effect_of(Maturity{0.5}, lots, Protein14{8});
    CHECK(!effect.is_over_oxidised());
    CHECK(effect.maturity.value() == 1);
    CHECK(effect.strength_index < 165);
}

TEST_CASE("A dose comes with the doubt it stands in") {
    const std::vector<MillAddition> mill{{Substance::glucose_oxidase, OxidantPpm{10}}};
    const auto need =
        oxidant_for(Substance::ascorbic_acid, Maturity{0.2}, Maturity{1}, {Protein14{11.5}, mill});
    REQUIRE(need);
    REQUIRE(need->reservations.size() == 2);
    CHECK_THAT(need->reservations[0], Catch::Matchers::Contains("starting guess: 4.8 mg/kg") &&
                                          Catch::Matchers::Contains("95 % between 1.2 and 16.0"));
    CHECK_THAT(need->reservations[1], Catch::Matchers::Contains("Glucose oxidase is left out"));
}

TEST_CASE(
    "True oxidants add up in milliequivalents: molar mass over the sulfhydryl that a molecule oxidises") {
    const std::vector<MillAddition> one_each{{Substance::potassium_bromate, OxidantPpm{167.00 / 6}},
                                             {Substance::potassium_iodate, OxidantPpm{214.00 / 6}},
                                             {Substance::azodicarbonamide, OxidantPpm{116.08 / 2}},
                                             {Substance::calcium_peroxide, OxidantPpm{72.08 / 2}}};
    const auto sum = milliequivalents(one_each);
    REQUIRE(sum);
    CHECK(*sum == Approx(4).epsilon(0.001));
    CHECK(*milliequivalents({}) == 0);
    const std::vector<MillAddition> ascorbic{{Substance::ascorbic_acid, OxidantPpm{20}}};
    const auto refused = milliequivalents(ascorbic);
    REQUIRE(!refused);
    CHECK_THAT(refused.refusals().front().what, Catch::Matchers::Contains("no oxidant itself"));
}

TEST_CASE("What has no figure is refused by name, unless none of it goes in") {
    const std::vector<MillAddition> enzyme{{Substance::potassium_bromate, OxidantPpm{20}},
                                           {Substance::glucose_oxidase, OxidantPpm{10}},
                                           {Substance::benzoyl_peroxide, OxidantPpm{40}}};
    const auto refused = milliequivalents(enzyme);
    REQUIRE(!refused);
    REQUIRE(refused.refusals().size() == 2);
    CHECK_THAT(refused.refusals().front().what, Catch::Matchers::Contains("Glucose oxidase"));
    const std::vector<MillAddition> none{{Substance::glucose_oxidase, OxidantPpm{0}}};
    CHECK(milliequivalents(none));
}

TEST_CASE("The law's sum by mass and the chemical sum differ, and neither stands for the other") {
    const Law law{shipped_limits(), markets()};
    const Sale sale{"US-federal", FoodClass::bread, day_from_iso("2026-11-25")};
    // 21 CFR 136.110(c)(14)(i): bromates, iodates and calcium peroxide together 75 mg/kg, by mass.
    const std::vector<MillAddition> bromate{{Substance::potassium_bromate, OxidantPpm{40}}};
    const std::vector<MillAddition> iodate{{Substance::potassium_iodate, OxidantPpm{40}}};
    const auto room_beside = [&](const std::vector<MillAddition>& carried) {
        return room_for(law, sale, Substance::calcium_peroxide, carried, OxidantPpm{1000}).room.value();
    };
    CHECK(room_beside(bromate) == Approx(35));
    CHECK(room_beside(iodate) == Approx(35));                                    // the same by mass
    CHECK(*milliequivalents(bromate) == Approx(40 * 6 / 167.00).epsilon(0.001)); // 1.44
    CHECK(*milliequivalents(iodate) == Approx(40 * 6 / 214.00).epsilon(0.001));  // 1.12
    const std::vector<MillAddition> peroxide{{Substance::calcium_peroxide, OxidantPpm{35}}};
    CHECK(*milliequivalents(peroxide) < *milliequivalents(bromate)); // 35 fill the room, not the equivalents
}

TEST_CASE("Bromate and iodate are restated between their salts by the ion, there and back") {
    // Molar masses, calcium salts as monohydrates with two ions: 167.00 and 313.90; 214.00 and 407.90.
    const auto bromate =
        as_other_salt(OxidantPpm{30}, Substance::potassium_bromate, Substance::calcium_bromate);
    REQUIRE(bromate);
    CHECK(bromate->value() == Approx(30 * 313.90 / 2 / 167.00).epsilon(0.001));
    const auto back = as_other_salt(*bromate, Substance::calcium_bromate, Substance::potassium_bromate);
    CHECK(back->value() == Approx(30));
    const auto iodate = as_other_salt(OxidantPpm{30}, Substance::calcium_iodate, Substance::potassium_iodate);
    CHECK(iodate->value() == Approx(30 * 214.00 * 2 / 407.90).epsilon(0.001));
    CHECK(as_other_salt(OxidantPpm{7}, Substance::ascorbic_acid, Substance::ascorbic_acid)->value() == 7);
}

TEST_CASE("One oxidant is no salt of another, and cysteine asks for the grade of its hydrochloride") {
    CHECK(!as_other_salt(OxidantPpm{30}, Substance::potassium_bromate, Substance::potassium_iodate));
    CHECK(!as_other_salt(OxidantPpm{30}, Substance::ascorbic_acid, Substance::azodicarbonamide));
    const auto cysteine =
        as_other_salt(OxidantPpm{30}, Substance::l_cysteine, Substance::l_cysteine_hydrochloride);
    REQUIRE(!cysteine);
    CHECK_THAT(cysteine.refusals().front().what, Catch::Matchers::Contains("monohydrate"));
}

TEST_CASE("Every substance says how fast and when it acts, with its source or that there is none") {
    for (const auto substance : all_substances()) {
        const std::string words(speed_and_stage(substance));
        INFO(name_of(substance) << ": " << words);
        const bool has_source =
            words.find("19") != std::string::npos || words.find("20") != std::string::npos;
        CHECK((has_source || words.find("source") != std::string::npos ||
               words.find("second hand") != std::string::npos ||
               words.find("no figure") != std::string::npos));
    }
    const auto begins = [](Substance substance, std::string_view words) {
        return speed_and_stage(substance).starts_with(words);
    };
    CHECK(begins(Substance::potassium_bromate, "slow"));
    CHECK(begins(Substance::potassium_iodate, "fast"));
    CHECK(begins(Substance::azodicarbonamide, "very fast"));
    CHECK(begins(Substance::ascorbic_acid, "fast"));
}
