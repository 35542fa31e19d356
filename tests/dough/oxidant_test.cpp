#include "dough/oxidant.h"
#include "support/catch.h"

#include <cmath>

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

TEST_CASE("Ascorbic acid for missing maturity falls from 14.1 on the first day to 5.7 and 1.7") {
    // maturity by 1 - exp(-0.30 t), Chen & Schofield 1996 read as 95 % at day 10
    CHECK(dose(Substance::ascorbic_acid, 0) == Approx(14.1).margin(0.05));
    CHECK(dose(Substance::ascorbic_acid, 1 - std::exp(-0.9)) == Approx(5.7).margin(0.05));
    CHECK(dose(Substance::ascorbic_acid, 1 - std::exp(-2.1)) == Approx(1.7).margin(0.05));
}

TEST_CASE("Flour that is mature enough asks for nothing") {
    CHECK(dose(Substance::ascorbic_acid, 0.9, 0.9) == 0);
    CHECK(dose(Substance::azodicarbonamide, 0.95, 0.9) == 0);
}

TEST_CASE("What the mill put in is taken off the bakery's dose") {
    const std::vector<MillAddition> mill{{Substance::ascorbic_acid, OxidantPpm{4}}};
    CHECK(dose(Substance::ascorbic_acid, 0.4, 0.9, {Protein14{11.5}, mill}) ==
          Approx(dose(Substance::ascorbic_acid, 0.4, 0.9) - 4));
    const std::vector<MillAddition> plenty{{Substance::ascorbic_acid, OxidantPpm{40}}};
    CHECK(dose(Substance::ascorbic_acid, 0.4, 0.9, {Protein14{11.5}, plenty}) == 0);
}

TEST_CASE("A mill's azodicarbonamide counts against ascorbic acid along the same curve") {
    const double alone = dose(Substance::azodicarbonamide, 0.4, 0.9);
    const std::vector<MillAddition> half{{Substance::azodicarbonamide, OxidantPpm{alone / 2}}};
    CHECK(dose(Substance::ascorbic_acid, 0.4, 0.9, {Protein14{11.5}, half}) ==
          Approx(dose(Substance::ascorbic_acid, 0.4, 0.9) / 2));
}

TEST_CASE("Other oxidants go by their equivalents: as much iodate as bromate times 35.67 to 27.83") {
    // molar mass over six electrons each: 214.00/6 and 167.00/6
    CHECK(dose(Substance::potassium_iodate, 0.5) / dose(Substance::potassium_bromate, 0.5) ==
          Approx((214.00 / 6) / (167.00 / 6)).epsilon(0.001));
}

TEST_CASE("More protein takes more oxidant, but not more ascorbic acid") {
    CHECK(dose(Substance::potassium_bromate, 0.5, 1, {Protein14{13.8}, {}}) ==
          Approx(1.2 * dose(Substance::potassium_bromate, 0.5)));
    CHECK(dose(Substance::ascorbic_acid, 0.5, 1, {Protein14{13.8}, {}}) ==
          Approx(dose(Substance::ascorbic_acid, 0.5)));
}

TEST_CASE("Without the protein, ascorbic acid is dosed and bromate is refused") {
    CHECK(dose(Substance::ascorbic_acid, 0.5, 1, {{}, {}}) > 0);
    const auto refused = oxidant_for(Substance::potassium_bromate, Maturity{0.5}, Maturity{1}, {{}, {}});
    REQUIRE(!refused);
    CHECK(refused.refusals().front().field == "Protein");
}

TEST_CASE("Cysteine, bleaches and enzymes are no answer to missing strength") {
    for (const auto substance : {Substance::l_cysteine, Substance::l_cysteine_hydrochloride,
                                 Substance::benzoyl_peroxide, Substance::glucose_oxidase}) {
        INFO(name_of(substance));
        CHECK(!oxidant_for(substance, Maturity{0.5}, Maturity{1}, plain));
    }
}

TEST_CASE("The dose lifts the dough to the maturity it was asked for") {
    for (const auto substance :
         {Substance::ascorbic_acid, Substance::azodicarbonamide, Substance::potassium_bromate}) {
        INFO(name_of(substance));
        const std::vector<MillAddition> doses{{substance, OxidantPpm{dose(substance, 0.35, 0.9)}}};
        const auto effect = effect_of(Maturity{0.35}, doses, Protein14{11.5});
        REQUIRE(effect);
        CHECK(effect->maturity.value() == Approx(0.9));
        CHECK(effect->strength_index > 100);
        CHECK(!effect->is_over_oxidised());
    }
}

TEST_CASE(
    "All accessible sulfhydryl at 11.5 % protein takes 12.8 to 24.0 of bromate; beyond is over-oxidised") {
    // Bushuk 1961: 4.0 to 7.5 ueq per g of protein
    const std::vector<MillAddition> below{{Substance::potassium_bromate, OxidantPpm{12.8}}};
    const std::vector<MillAddition> above{{Substance::potassium_bromate, OxidantPpm{24.1}}};
    CHECK(!effect_of(Maturity{0.5}, below, Protein14{11.5})->is_over_oxidised());
    CHECK(effect_of(Maturity{0.5}, above, Protein14{11.5})->is_over_oxidised());
}

TEST_CASE("Ascorbic acid is never called too much for the protein: no overdose is known of it") {
    const std::vector<MillAddition> lots{{Substance::ascorbic_acid, OxidantPpm{200}}};
    const auto effect = effect_of(Maturity{0.5}, lots, Protein14{8});
    CHECK(!effect->is_over_oxidised());
    CHECK(effect->maturity.value() == 1);
    CHECK(effect->strength_index < 165);
}

TEST_CASE("A dose comes with the doubt it stands in") {
    const auto need = oxidant_for(Substance::potassium_bromate, Maturity{0.2}, Maturity{1}, plain);
    REQUIRE(need);
    CHECK(need->reservations.size() >= 3);
}
