#include "card_fixture.h"

#include <numeric>

using namespace mellowbin;
using namespace mellowbin::dough;

TEST_CASE("The grams of the lots add up to the batch exactly, whatever the shares") {
    CardCase bakery;
    bakery.input.run.flour = Grams{300'001};
    bakery.input.run.batches = 3;
    bakery.add("A", 100'003, 0.9);
    bakery.add("B", 99'999, 0.9);
    bakery.add("C", 99'999, 0.9);
    const auto card = bakery.card();
    const auto sum = std::accumulate(card.flour.begin(), card.flour.end(), Grams{},
                                     [](Grams grams, const CardFlour& flour) { return grams + flour.mass; });
    CHECK(sum == card.batch_flour);
    CHECK(card.batch_flour == Grams{100'000});
}

TEST_CASE("A lot in bags is told as whole bags and the rest") {
    CardCase bakery;
    bakery.add("A", 300'000, 0.9);
    bakery.add("B", 100'000, 0.9).bag = Grams{0};
    const auto card = bakery.card();
    CHECK(card.flour[0].mass == Grams{150'000});
    CHECK(card.flour[0].bags == 6);
    CHECK(card.flour[0].rest == Grams{0});
    CHECK(card.flour[1].bags == 0);
    CHECK(card.flour[1].rest == Grams{50'000});
}

TEST_CASE("A card is refused for a lot that is not released, saying which and why") {
    for (const auto state :
         {LotState::awaiting_judgement, LotState::held, LotState::rejected, LotState::used_up}) {
        CardCase bakery;
        bakery.add("A", 400'000, 0.9).state = state;
        const auto card = make_card(bakery.input);
        REQUIRE(!card);
        CHECK(card.refusals().front().field == "Lot A");
        CHECK_THAT(card.refusals().front().what, Catch::Matchers::Contains("not released"));
    }
}

TEST_CASE("A card without lots, or with another flour, is refused with every reason at once") {
    CardCase bakery;
    REQUIRE(!make_card(bakery.input));
    bakery.add("A", 200'000, 0.9).flour = FlourId{7};
    bakery.add("B", 200'000, 0.9).state = LotState::held;
    const auto card = make_card(bakery.input);
    REQUIRE(!card);
    CHECK(card.refusals().size() == 2);
}

TEST_CASE("The blend is told by mass: protein, falling number by liquefaction, maturity with its band") {
    CardCase bakery;
    bakery.add("A", 200'000, 0.8).certificate.set({Property::falling_number, 400, Basis{}, "", 5.7});
    bakery.add("B", 200'000, 0.4).certificate.set({Property::falling_number, 220, Basis{}, "", 5.7});
    const auto card = bakery.card();
    CHECK(card.maturity.value() == Approx(0.6));
    CHECK(card.lowest.value() == Approx(0.5));
    for (const auto& figure : card.blend)
        if (figure.property == Property::falling_number)
            CHECK(*figure.value == Approx(279).margin(0.5)); // published: not the mean of 310
}

TEST_CASE("A blended strength value is marked as an estimate, a certificate's own is not") {
    CardCase bakery;
    bakery.add("A", 200'000, 0.9).certificate.set({Property::stability, 12, Basis{}, "", 5.7});
    auto& second = bakery.add("B", 200'000, 0.9);
    second.certificate.set({Property::stability, 8, Basis{}, "", 5.7});
    int seen = 0;
    const auto card = bakery.card();
    for (const auto& figure : card.blend) {
        if (figure.property == Property::stability) {
            ++seen;
            CHECK(figure.is_estimate);
            CHECK(figure.origin == Origin::model);
        }
        if (figure.property == Property::protein)
            CHECK(!figure.is_estimate);
    }
    CHECK(seen == 1);
}

TEST_CASE("Water on the card: exact, told by the step, and what that comes to") {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0).certificate.set({Property::moisture, 12.0, Basis::as_is(), "", 5.7});
    bakery.input.line.water_step_kg = 0.5;
    const auto card = bakery.card();
    REQUIRE(card.water);
    // 64 % at 14 on flour at 12 %: (88/86)·164 − 100 = 67.814 %
    CHECK(card.water->dough.exact.value() == Approx(2 * 67.814).margin(0.01));
    CHECK(card.water->told.value() == Approx(135.5));
    CHECK(card.water->resulting.value() == Approx(64).margin(0.1));
    CHECK(card.water->resulting != card.water->dough.target);
    CHECK(card.water->offset_origin == Origin::assumed);
    CHECK(warns(card, CautionAt::water, "assumed"));
}

TEST_CASE("A lot without absorption leaves the water unknown and the rest of the card standing") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.9).certificate = Certificate{};
    const auto card = bakery.card();
    CHECK(!card.water);
    CHECK(card.water.refusals().front().field == "Lot A");
    CHECK(!card.temperature);
    CHECK(card.flour.size() == 1);
    bool has_missing_protein = false;
    for (const auto& figure : card.blend)
        has_missing_protein |= figure.property == Property::protein && !figure.value;
    CHECK(has_missing_protein);
}

TEST_CASE("The factor method sets the water where the line's mixing energy is not known") {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0);
    const auto card = bakery.card();
    REQUIRE(card.temperature);
    CHECK(card.temperature->method == TemperatureMethod::factors);
    // 3·26 − (22 + 20 + 14)
    CHECK(card.temperature->mix.water_temperature.value() == Approx(22));
    CHECK(card.water->ice.value() == 0);
}

TEST_CASE("The heat balance sets the water where the mixing energy is known, and ice where it must") {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0);
    bakery.input.line.mixing_energy_kj_per_kg = 39.6;
    const auto card = bakery.card();
    REQUIRE(card.temperature);
    CHECK(card.temperature->method == TemperatureMethod::heat_balance);
    CHECK(card.water->ice.value() > 0);
    CHECK(card.temperature->mix.water_temperature.value() == Approx(2));
    CHECK((card.water->ice + card.water->told).value() ==
          Approx(card.water->dough.exact.value()).margin(0.06));
    CHECK(warns(card, CautionAt::water, "crushed ice"));
}

TEST_CASE("Ice over the line's cap is not told, and the card says how warm the dough will be") {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0);
    bakery.input.line.mixing_energy_kj_per_kg = 39.6;
    bakery.input.line.most_ice = 0.05;
    const auto card = bakery.card();
    CHECK(card.water->ice.value() <= 0.05 * card.water->dough.exact.value() + 1e-9);
    CHECK(card.temperature->mix.too_warm.value() > 0);
    CHECK(warns(card, CautionAt::water, "too warm"));
}

TEST_CASE("Absorption that jumped since the last run is cautioned") {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0);
    bakery.input.last_run_absorption = Absorption14{61};
    CHECK(warns(bakery.card(), CautionAt::water, "than in the last run"));
    bakery.input.last_run_absorption = Absorption14{63.5};
    CHECK(!warns(bakery.card(), CautionAt::water, "than in the last run"));
}

TEST_CASE("A lot without a milling date, and a young one, are named") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.3).milled_on.reset();
    const auto card = bakery.card();
    CHECK(warns(card, CautionAt::flour, "Lot A: the milling date is not known"));
    CHECK(warns(card, CautionAt::flour, "Lot A is young"));
}

TEST_CASE("Flour assigned short of the run is said in batches") {
    CardCase bakery;
    bakery.add("A", 250'000, 0.9);
    CHECK(warns(bakery.card(), CautionAt::flour, "enough for 1 of 2 batches"));
}

TEST_CASE("Every card warns of flour dust, of wheat and of raw dough") {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0);
    const auto card = bakery.card();
    CHECK(warns(card, CautionAt::flour, "dust"));
    CHECK(warns(card, CautionAt::flour, "wheat"));
    CHECK(warns(card, CautionAt::flour, "raw"));
    CHECK(warns(card, CautionAt::card, "Local law"));
}

TEST_CASE("Other ingredients are baker's percent of the batch's flour") {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0);
    const auto card = bakery.card();
    REQUIRE(card.ingredients.size() == 2);
    CHECK(card.ingredients[0].mass.value() == Approx(3.6));
    CHECK(card.ingredients[1].mass.value() == Approx(4.0));
}

namespace {

/// A batch of 200 kg with 0.3 % of calcium propionate, for the EU.
CardCase kept_bread() {
    CardCase bakery;
    bakery.add("A", 400'000, 1.0);
    bakery.input.product.propionate_percent = 0.3;
    bakery.input.product.market = "EU";
    bakery.input.product.oxidant.reset();
    bakery.input.bread_ph = 5.2;
    return bakery;
}

} // namespace

TEST_CASE("Propionate is weighed on flour and judged in the bread") {
    CardCase bakery = kept_bread();
    bakery.input.product.sold_as = SoldAs::prepacked_sliced;
    const auto card = bakery.card();
    REQUIRE(card.keeping);
    CHECK_FALSE(card.keeping->is_withheld);
    CHECK(card.keeping->withheld_words.empty());
    CHECK(card.keeping->exact_g == Approx(600));
    CHECK(card.keeping->in_bread->as_acid == Approx(1646).margin(1));
    CHECK(*card.keeping->undissociated == Approx(0.3187).margin(0.0001));
    CHECK(card.keeping->judged.size() == 1);
    CHECK_FALSE(warns(card, CautionAt::bread, "withheld"));
    CHECK(!card.oxidant);
}

TEST_CASE("Propionate over its limit is withheld: no grams of it are told, and what stands against it is") {
    CardCase bakery = kept_bread();
    bakery.input.product.sold_as = SoldAs::prepacked_other;
    const auto card = bakery.card();
    REQUIRE(card.keeping);
    CHECK(card.keeping->is_withheld);
    CHECK(card.keeping->exact_g == 0);
    CHECK(card.keeping->withheld_words.find("more than 1000") != std::string::npos);
    CHECK(warns(card, CautionAt::bread, "Calcium propionate is withheld: EU, other prepacked bread"));
}

TEST_CASE("Cultured wheat whose acid nobody knows is withheld on the card, with whom to ask") {
    CardCase bakery = kept_bread();
    bakery.input.product.sold_as = SoldAs::prepacked_sliced;
    bakery.input.product.preservative = Preservative::cultured_wheat;
    const auto card = bakery.card();
    REQUIRE(card.keeping);
    CHECK(card.keeping->is_withheld);
    CHECK(card.keeping->exact_g == 0);
    CHECK(warns(card, CautionAt::bread, "ask its supplier"));
}

TEST_CASE("A yield that is no bread's withholds the preservative instead of leaving it off the card") {
    CardCase bakery = kept_bread();
    bakery.input.product.sold_as = SoldAs::prepacked_sliced;
    bakery.input.product.bread_yield = 2.3;
    const auto card = bakery.card();
    REQUIRE(card.keeping);
    CHECK(card.keeping->is_withheld);
    CHECK(card.keeping->withheld_words.find("Bread yield") != std::string::npos);
}

TEST_CASE("A line whose steps are not set is refused by field, not divided by") {
    CardCase bakery;
    bakery.add("A", 400'000, 0.3);
    bakery.input.line.water_step_kg = 0;
    bakery.input.line.oxidant_scale_step_g = 0;
    bakery.input.line.most_ice = 1.5;
    const auto card = make_card(bakery.input);
    REQUIRE(!card);
    CHECK(card.refusals().size() == 3);
    CHECK(card.refusals().front().field == "Water step");
}

namespace {

/// Three quarters of the flour of the fixture's kind, a quarter of another.
CardCase mixed_dough() {
    CardCase bakery;
    bakery.input.product.second_flour = SecondFlour{FlourId{2}, 0.25, {}};
    bakery.add("WHITE", 300'000, 0.6);
    bakery.add("RYE", 100'000, 0.2).flour = FlourId{2};
    return bakery;
}

} // namespace

TEST_CASE("A dough of two flours has each in its part, whatever lots there are of the other") {
    CardCase bakery;
    bakery.input.product.second_flour = SecondFlour{FlourId{2}, 0.25, {}};
    bakery.add("A", 200'000, 0.9);
    bakery.add("RYE", 50'000, 0.9).flour = FlourId{2}; // half of what it should be
    bakery.add("B", 100'000, 0.9);
    const auto card = bakery.card();
    CHECK(card.flour[0].mass == Grams{100'000});
    CHECK(card.flour[1].mass == Grams{50'000});
    CHECK(card.flour[2].mass == Grams{50'000});
}

TEST_CASE("A dough of two flours is refused while one of them has no lot") {
    CardCase bakery;
    bakery.input.product.second_flour = SecondFlour{FlourId{2}, 0.25, {}};
    bakery.add("WHITE", 400'000, 0.9);
    const auto card = make_card(bakery.input);
    REQUIRE_FALSE(card);
    CHECK_THAT(card.refusals()[0].what, Catch::Contains("no lot of the second flour"));
}

TEST_CASE("A second flour that no target is about neither lowers the maturity nor draws oxidant") {
    auto bakery = mixed_dough();
    const double all = bakery.card().maturity.value();
    CHECK(all == Approx(0.75 * 0.6 + 0.25 * 0.2));
    bakery.input.lots[1].has_target = false;
    const auto card = bakery.card();
    CHECK(card.maturity.value() == Approx(0.6));
    CHECK(card.strength_share == Approx(0.75));
    CHECK_FALSE(warns(card, CautionAt::flour, "Lot RYE is young"));

    CardCase white; // the same white flour alone
    white.add("WHITE", 400'000, 0.6);
    const auto alone = white.card();
    REQUIRE(card.oxidant);
    REQUIRE(alone.oxidant);
    // mg per kg of all the flour: what the white part needs, spread over the rye as well.
    CHECK((*card.oxidant)->need.dose.value() == Approx(0.75 * (*alone.oxidant)->need.dose.value()));
    CHECK((*card.oxidant)->effect.maturity.value() ==
          Approx((*alone.oxidant)->effect.maturity.value()).margin(0.02));
}

TEST_CASE("Where a batch takes one lot alone, the card has the first that reaches, and none is mixed") {
    CardCase bakery;
    bakery.input.product.one_lot_a_batch = true;
    bakery.add("A", 40'000, 0.5); // the rest of one that was counted short
    bakery.add("B", 200'000, 0.9);
    bakery.add("C", 200'000, 0.7);
    const auto card = bakery.card();
    REQUIRE(card.flour.size() == 1);
    CHECK(card.flour[0].code == "B");
    CHECK(card.flour[0].mass == Grams{200'000});
    CHECK(card.maturity.value() == Approx(0.9));
    CHECK_FALSE(warns(card, CautionAt::flour, "no lot reaches"));

    bakery.input.lots[1].mass = bakery.input.lots[2].mass = Grams{150'000};
    CHECK(warns(bakery.card(), CautionAt::flour, "no lot reaches for this one: B has 150.0 kg"));
}
