#include "card_fixture.h"

#include <set>

using namespace mellowbin;
using namespace mellowbin::dough;
using Catch::Matchers::Contains;

namespace {

/// Mature flour, nothing against it.
struct GoodCase : CardCase {
    Flour flour;
    std::deque<Retest> retests;

    GoodCase() {
        add("A", 400'000, 0.95);
        flour.specification = {{Property::moisture, {}, 14.5, ""}, {Property::protein, 11.0, 13.0, ""}};
        input.lots[0].flour = &flour;
    }
    Lot& lot() { return lots[0]; }
    void tests(Property property, double value) {
        Retest& retest = retests.emplace_back();
        retest.taken_on = day_from_iso("2026-11-24");
        retest.results.set({property, value,
                            property == Property::moisture ? Basis::as_is() : Basis::at(Moisture{14}), "",
                            wheat_nitrogen_factor});
        input.lots[0].retest = &retest;
    }
    [[nodiscard]] dough::Verdict verdict() const { return verdict_of(input, make_card(input)); }
    /// The only thing against the batch.
    Against only() const {
        const auto found = verdict();
        REQUIRE(found.against.size() == 1);
        return found.against.front();
    }
};

void stock_up(Lot& lot, double moisture) {
    lot.certificate.set({Property::moisture, moisture, Basis::as_is(), "", wheat_nitrogen_factor});
}

} // namespace

TEST_CASE("Of good flour with possible water nothing stands against the batch: mix") {
    const GoodCase bakery;
    CHECK(bakery.verdict().against.empty());
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    CHECK(name_of(MayMix::mix) == "Mix");
}

TEST_CASE(
    "Every kind of reason has a key of its own, its rule's source and what lifts it; the strictest decides") {
    std::set<std::string_view> keys;
    for (const auto& kind : all_mix_reasons()) {
        CHECK(keys.insert(kind.key).second);
        CHECK(&traits(kind.reason) == &kind);
        CHECK(!kind.lifted_by.empty());
        CHECK(!kind.source.empty());
        CHECK(kind.may_mix != MayMix::mix);
    }
    dough::Verdict verdict;
    object(verdict, MixReason::lot_past_best, CautionAt::flour, "a");
    CHECK(verdict.may_mix() == MayMix::answer_first);
    object(verdict, MixReason::wrong_bag, CautionAt::flour, "b");
    object(verdict, MixReason::bags_not_scanned, CautionAt::flour, "c");
    CHECK(verdict.may_mix() == MayMix::do_not_mix);
    CHECK(verdict.against.front().words == "b");
    CHECK(verdict.against.back().words == "c");
}

TEST_CASE("A lot that is not released stops the batch, in whatever state it is, with its reason") {
    for (const auto state :
         {LotState::held, LotState::rejected, LotState::awaiting_judgement, LotState::used_up}) {
        GoodCase bakery;
        bakery.lot().state = state;
        bakery.lot().state_reason = "smells of oil";
        const auto against = bakery.only();
        CHECK(against.reason == MixReason::lot_not_released);
        CHECK(bakery.verdict().may_mix() == MayMix::do_not_mix);
        CHECK_THAT(against.words, Contains("Lot A") && Contains("smells of oil"));
    }
}

TEST_CASE("A concession that is over, or is for another product, stops the batch; until then it does not") {
    GoodCase bakery;
    bakery.input.product.id = ProductId{3};
    bakery.input.product.name = "Pan bread";
    bakery.lot().concession = Concession{"protein 10.2 %", "Ines", bakery.input.run.day, {ProductId{3}}};
    CHECK(bakery.verdict().against.empty()); // its last day
    bakery.lot().concession->products = {ProductId{2}};
    CHECK(bakery.only().reason == MixReason::concession_does_not_hold);
    CHECK_THAT(bakery.only().words, Contains("Lot A: its concession is not for Pan bread: protein 10.2 %"));
    CHECK(bakery.verdict().may_mix() == MayMix::do_not_mix);
    bakery.lot().concession->products.clear();
    bakery.input.mixed_on = bakery.input.run.day + Days{1}; // of yesterday's run
    CHECK_THAT(bakery.only().words, Contains("its concession ended on Wed 25 Nov"));
    CHECK_THAT(bakery.only().lifted_by, Contains("judge the lot anew"));
}

TEST_CASE("Flour past its best by the estimate asks for an answer from that day on") {
    GoodCase bakery;
    bakery.input.lots[0].past_best_from = bakery.input.run.day + Days{1};
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.input.lots[0].past_best_from = bakery.input.run.day;
    CHECK(bakery.only().reason == MixReason::lot_past_best);
    CHECK(bakery.verdict().may_mix() == MayMix::answer_first);
    CHECK_THAT(bakery.only().words, Contains("Wed 25 Nov"));
}

TEST_CASE("A best-before day that has passed stops the batch, unless quality extended it") {
    GoodCase bakery;
    bakery.lot().best_before = bakery.input.run.day;
    CHECK(bakery.verdict().may_mix() == MayMix::mix); // the day itself is the last one
    bakery.lot().best_before = bakery.input.run.day - Days{1};
    CHECK(bakery.only().reason == MixReason::best_before_passed);
    CHECK(bakery.verdict().may_mix() == MayMix::do_not_mix);
    bakery.lot().extension = BestBeforeExtension{bakery.input.run.day, "smell, fat acidity right", "Ines"};
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.lot().extension->until = bakery.input.run.day - Days{1};
    CHECK_THAT(bakery.only().words, Contains("extended"));
}

TEST_CASE("Moisture over the flour's specification asks for an answer, over 15.5 % it stops the batch") {
    // 15.5 %: Codex Standard 152-1985, wheat flour.
    GoodCase bakery;
    stock_up(bakery.lot(), 14.5);
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    stock_up(bakery.lot(), 14.8);
    CHECK(bakery.only().reason == MixReason::lot_out_of_specification);
    stock_up(bakery.lot(), 15.5);
    CHECK(bakery.only().reason == MixReason::lot_out_of_specification);
    stock_up(bakery.lot(), 15.6);
    CHECK(bakery.only().reason == MixReason::moisture_too_high);
    CHECK(bakery.verdict().may_mix() == MayMix::do_not_mix);
}

TEST_CASE(
    "A retest speaks before the certificate: out of specification asks, over 15.5 % of moisture stops") {
    GoodCase bakery;
    bakery.tests(Property::protein, 10.2);
    CHECK(bakery.only().reason == MixReason::lot_out_of_specification);
    CHECK_THAT(bakery.only().words, Contains("retest of Tue 24 Nov") && Contains("10.2"));
    bakery.tests(Property::protein, 12.1);
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.tests(Property::moisture, 15.7);
    CHECK(bakery.verdict().has(MixReason::moisture_too_high));
    stock_up(bakery.lot(), 14.8); // the certificate said more than the retest does
    bakery.tests(Property::moisture, 14.2);
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
}

TEST_CASE(
    "A wrong bag stops, and its code stands in the words; bags not scanned ask where the plant wants them") {
    GoodCase bakery;
    bakery.add("B", 400'000, 0.95);
    bakery.input.bags.right = {LotId{1}};
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.input.bags.is_asked = true;
    CHECK(bakery.only().reason == MixReason::bags_not_scanned);
    CHECK_THAT(bakery.only().words, Contains("1 of 2 scanned") && Contains("lot B"));
    bakery.input.bags.right = {LotId{1}, LotId{2}};
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.input.bags.wrong = {{"C-77", "04:12 by Ines"}};
    CHECK(bakery.only().reason == MixReason::wrong_bag);
    CHECK_THAT(bakery.only().words,
               Contains("C-77") && Contains("A, B is expected") && Contains("04:12 by Ines"));
    CHECK(bakery.verdict().may_mix() == MayMix::do_not_mix);
}

TEST_CASE("Water no dough takes stops the batch, and the words say where to look") {
    GoodCase bakery;
    bakery.input.product.water_offset = AbsorptionPoints{-34}; // 28 % in all
    CHECK(bakery.only().reason == MixReason::water_impossible);
    CHECK_THAT(bakery.only().words, Contains("product's formula"));
    bakery.input.product.water_offset = AbsorptionPoints{50}; // 112 %
    CHECK(bakery.only().reason == MixReason::water_impossible);
    bakery.input.product.water_offset = AbsorptionPoints{40}; // 102 %
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
}

TEST_CASE("A step of the meter that moves the water by over half a percent of the flour is not gone by in "
          "silence") {
    GoodCase bakery; // 200 kg of flour, 128 kg of water: 0.5 % is 1 kg
    bakery.input.line.water_step_kg = 2;
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.input.line.water_step_kg = 10; // 130 kg
    CHECK(bakery.only().reason == MixReason::water_rounded);
    CHECK_THAT(bakery.only().words, Contains("1.0 %") && Contains("130.0 kg are told"));
    bakery.input.line.water_step_kg = 500; // 0.0 kg
    CHECK(bakery.verdict().has(MixReason::water_impossible));
    CHECK_THAT(bakery.verdict().against.front().lifted_by, Contains("step of the line's meter"));
}

TEST_CASE("Hot water asks from 40 °C on, above 60 °C it stops: common practice, no source") {
    GoodCase bakery; // three factors: water = 3 x 26 - (22 + 20 + 14) = 22 °C
    const auto with_friction = [&](double factor) {
        bakery.input.line.friction_factor = CelsiusStep{factor};
        return bakery.verdict();
    };
    CHECK(with_friction(-3.9).may_mix() == MayMix::mix); // 39.9 °C
    CHECK(with_friction(-4).has(MixReason::water_hot));
    CHECK(with_friction(-4).may_mix() == MayMix::answer_first);
    CHECK(with_friction(-24).may_mix() == MayMix::answer_first); // 60 °C
    const auto stopped = with_friction(-25);
    CHECK(stopped.may_mix() == MayMix::do_not_mix);
    CHECK(stopped.against.front().reason == MixReason::water_impossible);
    CHECK_THAT(stopped.against.front().words, Contains("61.0 °C") && Contains("settings"));
    bakery.input.units = HouseUnits("lb", "°F");
    CHECK_THAT(with_friction(-25).against.front().words, Contains("141.8 °F") && !Contains("°C"));
}

TEST_CASE(
    "The ice told is never more than the line takes, whatever the step; a dough far too warm asks first") {
    GoodCase bakery;
    bakery.input.line.mixing_energy_kj_per_kg = 60;
    bakery.input.line.most_ice = 0.1; // of 128 kg
    bakery.input.line.water_step_kg = 5;
    const auto card = bakery.card();
    CHECK(card.water->ice.value() <= 0.1 * card.water->dough.exact.value());
    REQUIRE(card.temperature->mix.is_capped);
    const auto verdict = bakery.verdict();
    CHECK(verdict.has(MixReason::dough_too_warm) == (card.temperature->mix.too_warm >= CelsiusStep{3}));
    CHECK_FALSE(verdict.has(MixReason::water_impossible));
    bakery.input.distances.too_warm = CelsiusStep{0.1};
    CHECK(bakery.verdict().has(MixReason::dough_too_warm));
}

TEST_CASE("Ice that would round up past the line's share is rounded down") {
    GoodCase bakery;
    bakery.input.line.mixing_energy_kj_per_kg = 45;
    bakery.input.line.water_step_kg = 0.01;
    const auto fine = bakery.card();
    const double needed = fine.temperature->mix.ice.value() / fine.water->dough.exact.value();
    REQUIRE(needed > 0);
    bakery.input.line.most_ice = needed + 0.0001; // just enough, and no more
    bakery.input.line.water_step_kg = 3;
    const auto coarse = bakery.card();
    CHECK(coarse.water->ice.value() <= (needed + 0.0001) * coarse.water->dough.exact.value() + 1e-9);
    CHECK_FALSE(bakery.verdict().has(MixReason::water_impossible));
}

TEST_CASE("What the mill put in by a row that nobody confirmed asks first, what is forbidden stops") {
    GoodCase bakery;
    bakery.lot().mill_additions = {{Substance::ascorbic_acid, OxidantPpm{20}}};
    bakery.input.product.market = "AU-NZ";
    bakery.input.product.oxidant.reset();
    CHECK(bakery.only().reason == MixReason::mill_dose_unconfirmed);
    bakery.input.product.market = "EU"; // where the text was read
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.lot().mill_additions = {{Substance::potassium_bromate, OxidantPpm{20}}};
    CHECK(bakery.verdict().has(MixReason::law_forbids_flour));
    CHECK(bakery.verdict().may_mix() == MayMix::do_not_mix);
}

TEST_CASE("What was mixed counts: a run of 400 kg with one batch in has enough with the other 200 kg") {
    GoodCase bakery;
    bakery.input.lots[0].mass = Grams{200'000};
    CHECK(warns(bakery.card(), CautionAt::flour, "enough for 1 of 2 batches"));
    bakery.input.mixed = Grams{200'000};
    CHECK_FALSE(warns(bakery.card(), CautionAt::flour, "enough for"));
    CHECK(bakery.verdict().may_mix() == MayMix::mix);
    bakery.input.lots[0].mass = Grams{150'000};
    CHECK(bakery.only().reason == MixReason::flour_short);
}

TEST_CASE("What was typed far from the card asks for a word, from the distances set") {
    GoodCase bakery; // 128 kg of water at 22 °C, 26 °C aimed at
    const auto card = bakery.card();
    const auto typed = [&](TypedFigures figures) {
        return verdict_of(bakery.input, card, figures).against.size();
    };
    CHECK(typed({Kilograms{128 * 0.86}, {}, {}}) == 0);
    CHECK(typed({Kilograms{128 * 0.84}, {}, {}}) == 1);
    CHECK(typed({Kilograms{128 * 1.16}, {}, {}}) == 1);
    CHECK(typed({{}, Celsius{32}, {}}) == 0);
    CHECK(typed({{}, Celsius{32.1}, {}}) == 1);
    CHECK(typed({{}, {}, Celsius{31}}) == 0);
    CHECK(typed({{}, {}, Celsius{45}}) == 1);
    bakery.input.distances.dough_temperature = CelsiusStep{20};
    CHECK(typed({{}, {}, Celsius{45}}) == 0);
}
