#include "dough/water_belief.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::dough;
using Catch::Matchers::Contains;

namespace {

const auto at_14 = Basis::at(Moisture{14});

Certificate flour(std::optional<double> absorption, std::optional<double> protein,
                  std::optional<double> damage = {}, const std::string& method = "76-31") {
    Certificate made;
    if (absorption)
        made.set({Property::absorption, *absorption, at_14, "", wheat_nitrogen_factor});
    if (protein)
        made.set({Property::protein, *protein, at_14, "", wheat_nitrogen_factor});
    if (damage)
        made.set({Property::starch_damage, *damage, at_14, method, wheat_nitrogen_factor});
    return made;
}

} // namespace

TEST_CASE("A lot's own absorption is where its water starts from, whatever the lot before was like") {
    const auto last = flour(58, 11, 7);
    const auto start = absorption_start(flour(60.5, 13, 8), &last, "W24-101");
    REQUIRE(start);
    CHECK(start->from == AbsorptionStart::From::certificate);
    CHECK(start->absorption.value() == Approx(60.5));
    CHECK(absorption_start(flour(60.5, {}), nullptr, "")->absorption.value() == Approx(60.5));
}

TEST_CASE("Where absorption is missing, the difference in protein and damaged starch tells it, less surely") {
    const auto last = flour(58.8, 11.6, 7.9);
    const auto start = absorption_start(flour({}, 12.0, 7.6), &last, "W24-101");
    REQUIRE(start);
    CHECK(start->from == AbsorptionStart::From::composition);
    CHECK(start->absorption.value() == Approx(58.8 + 1.15 * 0.4 - 1.25 * 0.3));
    CHECK_THAT(start->words,
               Contains("58.9 % from W24-101 of the same mill, protein +0.4, damaged starch -0.3"));
    CHECK(start->sd > absorption_start(flour(58.9, 12), nullptr, "")->sd);
}

TEST_CASE("Damaged starch by another method, or by none that is named, is left out, and that is said") {
    const auto last = flour(58.8, 11.6, 7.9, "76-31");
    const auto both = absorption_start(flour({}, 12.0, 7.9, "76-31"), &last, "W24-101");
    for (const auto& [lot, words] : {std::pair{flour({}, 12.0, 11.7, "76-30A"), "76-30A is not 76-31"},
                                     {flour({}, 12.0, 7.0, ""), "its method is not known"},
                                     {flour({}, 12.0), "damaged starch not known of both"}}) {
        const auto start = absorption_start(lot, &last, "W24-101");
        REQUIRE(start);
        CHECK(start->absorption.value() == Approx(58.8 + 1.15 * 0.4));
        CHECK_THAT(start->words, Contains(words));
        CHECK(start->sd > both->sd);
    }
}

TEST_CASE("Absorption that cannot be told is refused, with all that is missing") {
    const auto last = flour(58.8, 11.6), no_protein = flour(58.8, {}), nothing = flour({}, 11.6);
    const auto no_last = absorption_start(flour({}, 12), nullptr, "");
    REQUIRE(!no_last);
    CHECK(no_last.refusals().front().field == "Absorption");
    CHECK_THAT(no_last.refusals().front().what, Contains("no earlier lot"));
    CHECK_THAT(absorption_start(flour({}, 12), &nothing, "W24-101").refusals().front().what,
               Contains("nor of W24-101"));
    const auto none = absorption_start(flour({}, {}), &no_protein, "W24-101");
    REQUIRE(!none);
    CHECK(none.refusals().size() == 2);
    CHECK(!none.refusals().front().remedy.empty());
    // a protein without a basis cannot be compared
    auto unclear = flour({}, {});
    unclear.set({Property::protein, 12, Basis{}, "", wheat_nitrogen_factor});
    CHECK(!absorption_start(unclear, &last, "W24-101"));
}

TEST_CASE("A flour farther from the last lot than any that was studied is not guessed at") {
    const auto last = flour(58.8, 10.0, 6.0);
    const auto protein = absorption_start(flour({}, 13.0, 6.0), &last, "W24-101");
    REQUIRE(!protein);
    CHECK_THAT(protein.refusals().front().what, Contains("the protein is 3.0 % more than of W24-101"));
    const auto damage = absorption_start(flour({}, 10.0, 8.5), &last, "W24-101");
    REQUIRE(!damage);
    CHECK_THAT(damage.refusals().front().what, Contains("damaged starch is 2.5 % more"));
}
