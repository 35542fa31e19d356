#include "card_fixture.h"
#include "dough/levers.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::dough;
using Catch::Matchers::Contains;

namespace {

/// A run of 400 kg whose flour lacks 0.2 of maturity, with other lots at hand.
struct Short {
    CardCase run;
    std::deque<Lot> other_lots;
    LeversInput input;

    explicit Short(double maturity = 0.7, double target = 0.9) {
        run.add("OWN", 400'000, maturity);
        run.input.product.maturity_target = Maturity{target};
        run.input.product.windows = {{Property::protein, 11.5, 13.0, ""}};
        input.prices.flour_per_tonne = 40'000;
    }
    OtherLot& other(const std::string& code, double maturity, double kg = 1000, double protein = 12) {
        auto& lot = other_lots.emplace_back(*run.input.lots.front().lot);
        lot.id = LotId{static_cast<std::int64_t>(100 + other_lots.size())};
        lot.code = code;
        lot.certificate.set({Property::protein, protein, Basis::at(Moisture{14}), "", wheat_nitrogen_factor});
        input.others.push_back({&lot, Maturity{maturity}, Maturity{maturity - 0.1}, Maturity{maturity},
                                to_grams(Kilograms{kg}), 40'000, ""});
        return input.others.back();
    }
    Levers weigh() {
        input.card = run.input;
        auto levers = weigh_levers(input);
        if (!levers)
            FAIL(mellowbin::in_words(levers.refusals().front()));
        return *std::move(levers);
    }
};

} // namespace

TEST_CASE("Where nothing is missing no lever is needed") {
    Short at(0.95);
    at.other("OLD", 1.0);
    const auto levers = at.weigh();
    CHECK(levers.missing == 0);
    CHECK(levers.blend.reach == Reach::not_needed);
    CHECK(levers.wait.reach == Reach::not_needed);
    CHECK(levers.ferment.reach == Reach::not_needed);
    CHECK(levers.mixes.empty());
}

TEST_CASE("The share of a blend is the one whose mean by mass is the demand") {
    Short at(0.7, 0.9);
    at.other("OLD", 1.0);
    const auto levers = at.weigh();
    REQUIRE(levers.blend.options.size() == 1);
    const auto& option = levers.blend.options.front();
    CHECK(option.share == Approx(2.0 / 3)); // 0.7 (1 - x) + 1.0 x = 0.9, by hand
    CHECK(option.mass == Grams{266'667});
    CHECK(option.maturity.value() == Approx(0.9));
    CHECK(option.reaches);
    CHECK(levers.blend.reach == Reach::reaches);
}

TEST_CASE("A blend takes no more of a lot than lies free, and says that it only helps") {
    Short at;
    at.other("LITTLE", 1.0, 100); // a quarter of the run
    const auto levers = at.weigh();
    REQUIRE(levers.blend.options.size() == 1);
    CHECK(levers.blend.options.front().share == Approx(0.25));
    CHECK(levers.blend.options.front().maturity.value() == Approx(0.775));
    CHECK(levers.blend.reach == Reach::helps);
}

TEST_CASE("A share below the product's least is none") {
    Short at;
    at.run.input.product.least_share = 0.3;
    at.other("LITTLE", 1.0, 100);
    const auto levers = at.weigh();
    CHECK(levers.blend.options.empty());
    CHECK_THAT(levers.blend.why_not, Contains("least share"));
}

TEST_CASE("Where the product takes one lot alone, the other lot can only stand for all of it") {
    Short at;
    at.run.input.product.most_lots = 1;
    at.other("OLD", 1.0, 1000);
    const auto levers = at.weigh();
    REQUIRE(levers.blend.options.size() == 1);
    CHECK(levers.blend.options.front().share == Approx(1));
}

TEST_CASE("A lot whose share leads out of the product's specification gives way to one that stays inside") {
    Short at(0.85, 0.9); // a third of the mature lot would do
    at.run.input.product.windows = {{Property::protein, 11.5, 12.2, ""}};
    at.other("STRONG", 1.0, 1000, 16); // a third of it: 13.3 %
    at.other("MILD", 1.0, 1000, 12);
    const auto levers = at.weigh();
    REQUIRE(levers.blend.options.size() == 1);
    CHECK(levers.blend.options.front().lot->lot->code == "MILD");
}

TEST_CASE(
    "A lot that a rule of the plan forbids is not offered, and its rule is told where no other is left") {
    Short at;
    at.other("KEPT", 1.0).forbidden = "it is kept for buns";
    const auto levers = at.weigh();
    CHECK(levers.blend.options.empty());
    CHECK(levers.blend.reach == Reach::forbidden);
    CHECK_THAT(levers.blend.why_not, Contains("kept for buns"));
}

TEST_CASE("Among lots that reach the cheaper one stands first, and what it costs is told against the run") {
    Short at;
    at.other("DEAR", 1.0).price_per_tonne = 50'000;
    at.other("CHEAP", 1.0).price_per_tonne = 35'000;
    const auto levers = at.weigh();
    REQUIRE(levers.blend.options.size() == 2);
    CHECK(levers.blend.options[0].lot->lot->code == "CHEAP");
    // Two thirds of 0.4 t at 50 less a tonne: 13.33, by hand, in minor units.
    CHECK(levers.blend.options[0].money == Approx(-2.0 / 3 * 0.4 * 5000));
}

TEST_CASE("Waiting is told by the first day on which the demand is met as sure as is asked") {
    Short at;
    const Day day = at.run.input.run.day;
    for (int i = 0; i < 10; ++i)
        at.input.wait.push_back({day + Days{i}, Maturity{0.7 + 0.03 * i}, 0.1 * i});
    const auto levers = at.weigh();
    CHECK(levers.wait.reach == Reach::reaches);
    CHECK(*levers.wait.reached_on == day + Days{7});
    at.input.wait.resize(5);
    const auto sooner = at.weigh();
    CHECK(sooner.wait.reach == Reach::helps);
    CHECK_FALSE(sooner.wait.reached_on);
}

TEST_CASE("A product without oxidant shows the lever as forbidden and why") {
    Short at;
    at.run.input.product.oxidant.reset();
    const auto levers = at.weigh();
    CHECK(levers.oxidant.reach == Reach::forbidden);
    CHECK_THAT(levers.oxidant.why_not, Contains("goes without"));
}

TEST_CASE("An oxidant the market forbids is a forbidden lever with the law's words, and no mix has it") {
    Short at;
    at.run.input.product.market = "EU";
    at.run.input.product.oxidant = Substance::azodicarbonamide;
    at.other("OLD", 1.0);
    const auto levers = at.weigh();
    CHECK(levers.oxidant.reach == Reach::forbidden);
    CHECK_FALSE(levers.oxidant.why_not.empty());
    for (const auto& mix : levers.mixes)
        CHECK(mix.dose.value() == 0);
}

TEST_CASE("Longer fermentation is unknown for a straight dough that nobody calibrated, and forbidden for a "
          "no-time one") {
    Short at;
    at.run.input.product.most_fermentation_minutes = 240;
    auto levers = at.weigh();
    CHECK(levers.ferment.reach == Reach::not_known);
    CHECK_THAT(levers.ferment.why_not, Contains("sponge doughs only"));
    at.run.input.product.process = DoughProcess::no_time;
    levers = at.weigh();
    CHECK(levers.ferment.reach == Reach::forbidden);
    at.run.input.product.maturity_per_hour = 0.1; // it has no bulk fermentation, whatever was entered
    levers = at.weigh();
    CHECK(levers.ferment.reach == Reach::forbidden);
}

TEST_CASE("A plant's own calibration gives minutes; what the product allows caps them") {
    Short at;
    at.run.input.product.fermentation_minutes = 60;
    at.run.input.product.most_fermentation_minutes = 180;
    at.run.input.product.maturity_per_hour = 0.1;
    auto levers = at.weigh();
    CHECK(levers.ferment.is_calibrated);
    CHECK(levers.ferment.minutes == Approx(120)); // 0.2 at 0.1 an hour
    CHECK(levers.ferment.reach == Reach::reaches);
    at.run.input.product.most_fermentation_minutes = 120;
    levers = at.weigh();
    CHECK(levers.ferment.reach == Reach::helps);
    CHECK(levers.ferment.maturity.value() == Approx(0.8));
}

TEST_CASE("Of a run that ferments longer already, what is still missing is counted after it, and most is the "
          "rest") {
    Short at; // lacks 0.2
    auto& input = at.run.input;
    input.product.fermentation_minutes = 60;
    input.product.most_fermentation_minutes = 180;
    input.product.maturity_per_hour = 0.1;
    const Product of_book = input.product;
    input.run.longer_fermentation_minutes = 30;
    input.product = as_baked(of_book, input.run);
    auto levers = at.weigh();
    CHECK(levers.missing == Approx(0.15));
    CHECK(levers.ferment.minutes == Approx(90));
    CHECK(levers.ferment.most == 90);
    CHECK(levers.ferment.reach == Reach::reaches);
    input.run.longer_fermentation_minutes = 120;
    input.product = as_baked(of_book, input.run);
    levers = at.weigh();
    CHECK(levers.missing == 0);
    CHECK(levers.ferment.reach == Reach::not_needed);
}

TEST_CASE("The card tells all minutes of fermentation, and those that are for strength") {
    CardCase run;
    run.add("OWN", 400'000, 0.7);
    run.input.product.fermentation_minutes = 45;
    run.input.run.longer_fermentation_minutes = 25;
    run.input.product = as_baked(run.input.product, run.input.run);
    const auto card = make_card(run.input);
    REQUIRE(card);
    CHECK(card->fermentation_minutes == 70);
    CHECK(card->longer_fermentation_minutes == 25);
}

TEST_CASE(
    "A sponge dough has the published hour in its own words, and it meets no demand until it is calibrated") {
    // 2.5 to 7.5 mg/kg of bromate an hour: Kilborn, Nomura & Preston 1981.
    Short at;
    at.run.input.product.process = DoughProcess::sponge;
    at.run.input.product.most_fermentation_minutes = 600;
    auto levers = at.weigh();
    CHECK(levers.ferment.reach == Reach::not_known);
    CHECK_FALSE(levers.ferment.is_calibrated);
    CHECK(levers.ferment.minutes == 0);
    CHECK(levers.ferment.maturity == levers.counted);
    CHECK_THAT(levers.ferment.why_not,
               Contains("Published: as much as 2.5 to 7.5 mg/kg of bromate an hour, strong flours, sponge"));
    for (const auto& mix : levers.mixes)
        CHECK(mix.minutes == 0);
    at.run.input.product.maturity_per_hour = 0.05;
    levers = at.weigh();
    CHECK(levers.ferment.is_calibrated);
    CHECK(levers.ferment.reach == Reach::reaches);
    CHECK(levers.ferment.minutes == Approx(240)); // 0.2 at 0.05 an hour
}

TEST_CASE("An oxidant that is dosed by bakes alone is in no mix, and the lever says so") {
    Short at;
    at.run.input.product.oxidant = Substance::potassium_bromate;
    at.other("OLD", 0.8);
    const auto levers = at.weigh();
    CHECK(levers.oxidant.reach == Reach::not_known);
    CHECK_THAT(levers.oxidant.why_not, Contains("missing maturity is not known"));
    for (const auto& mix : levers.mixes)
        CHECK(mix.dose.value() == 0);
}

TEST_CASE("Every mix meets the demand, keeps its levers' limits, and none is cheaper than the first") {
    Short at(0.6, 0.9);
    at.run.input.product.maturity_per_hour = 0.05;
    at.run.input.product.most_fermentation_minutes = 180;
    at.input.prices.line_per_minute = 30;
    at.input.prices.oxidant_per_kg = 3000;
    at.other("DEAR", 1.0).price_per_tonne = 60'000;
    at.other("LITTLE", 0.95, 80).price_per_tonne = 39'000;
    const auto levers = at.weigh();
    REQUIRE_FALSE(levers.mixes.empty());
    double last = -1e18;
    for (const auto& mix : levers.mixes) {
        CHECK(mix.maturity.value() >= 0.9 - 1e-9);
        CHECK(mix.dose <= levers.oxidant.dose->room.room);
        CHECK(mix.minutes <= 120 + 1e-9);
        CHECK(mix.money >= last - 1e-9);
        last = mix.money;
    }
    // Nothing is as cheap as a few grams of ascorbic acid; and one of the mixes does without additives.
    CHECK(levers.mixes.front().dose.value() > 0);
    CHECK(std::any_of(levers.mixes.begin(), levers.mixes.end(),
                      [](const LeverMix& mix) { return mix.dose.value() == 0; }));
}

TEST_CASE("Where all levers together do not reach it, that is said") {
    Short at(0.1, 0.95);
    at.run.input.product.oxidant.reset();
    const auto levers = at.weigh();
    CHECK(levers.mixes.empty());
    CHECK_FALSE(levers.no_mix.empty());
}

TEST_CASE("Water that stood off its optimum is a lever that helps; inside what a hand feels it is none") {
    Short at;
    at.input.last_water = LastWater{AbsorptionPoints{-2.5}, 0.5, "batch 1 of R-0"};
    CHECK(at.weigh().water.reach == Reach::helps);
    at.input.last_water = LastWater{AbsorptionPoints{0.3}, 0.2, "batch 1 of R-0"};
    CHECK(at.weigh().water.reach == Reach::not_needed);
    at.input.last_water.reset();
    CHECK(at.weigh().water.reach == Reach::not_known);
}

TEST_CASE("Protein above the product's window is told as too strong") {
    Short at(0.95);
    at.run.lots.front().certificate.set(
        {Property::protein, 14.5, Basis::at(Moisture{14}), "", wheat_nitrogen_factor});
    const auto levers = at.weigh();
    REQUIRE_FALSE(levers.too_far.words.empty());
    CHECK_THAT(levers.too_far.words.front(), Contains("Too strong"));
}

TEST_CASE("A run without a card has no levers, and says why") {
    CardCase run;
    LeversInput input;
    input.card = run.input;
    const auto levers = weigh_levers(input);
    REQUIRE_FALSE(levers);
    CHECK(levers.refusals().front().field == "Lots");
}
