#include "core/lot.h"
#include "support/good_lot.h"
#include "support/refusal_words.h"

namespace mellowbin {
namespace {

using testing::all_words;
using testing::good_draft;
using testing::reasons_for;
using testing::says;
using testing::SmallPlant;

Refusals refused(const LotDraft& draft) {
    const SmallPlant plant;
    const auto lot = accept(draft, plant.context());
    return lot ? Refusals{} : lot.refusals();
}

/// The one reason, and it is for this field.
std::string only_reason(const LotDraft& draft, const std::string& field) {
    const auto refusals = refused(draft);
    INFO(all_words(refusals));
    REQUIRE(refusals.size() == 1);
    REQUIRE(refusals.front().field == field);
    return in_words(refusals.front());
}

} // namespace

TEST_CASE("A good draft becomes a lot that awaits judgement, every figure with its basis") {
    const SmallPlant plant;
    const auto lot = accept(good_draft(), plant.context());
    REQUIRE(lot);
    CHECK(lot->code == "W26-118");
    CHECK(lot->mill == MillId{1});
    CHECK(lot->flour == FlourId{1});
    CHECK(lot->received_into == PlaceId{1});
    CHECK(lot->milled_on == Day{date::year{2026} / 11 / 16});
    CHECK(lot->delivered_on == Day{date::year{2026} / 11 / 20});
    CHECK(lot->received == Grams{5'000'000});
    CHECK(lot->bag == Grams{25'000});
    CHECK(lot->price_per_tonne_minor == 41050);
    CHECK(lot->state == LotState::awaiting_judgement);
    CHECK(lot->certificate.moisture() == Moisture{14.2});
    CHECK(lot->certificate.find(Property::protein)->basis == Basis::at(Moisture{14}));
    CHECK(lot->certificate.find(Property::protein)->nitrogen_factor == 5.7);
    CHECK(!lot->certificate.find(Property::falling_number)->basis.is_stated());
    CHECK(lot->mill_additions.empty());
}

TEST_CASE("A moisture of 140 is refused with what was read and what is expected, and only once") {
    auto draft = good_draft();
    draft.figure(Property::moisture).value = "140";
    draft.figure(Property::protein).basis = "as is"; // needs the moisture, which was typed
    CHECK(only_reason(draft, "Moisture") ==
          "Moisture: 140 was read; from 0 to 30 % is expected. Check the figure and its unit");
}

TEST_CASE("An absorption of abc is refused") {
    auto draft = good_draft();
    draft.figure(Property::absorption).value = "abc";
    CHECK(says(only_reason(draft, "Absorption"), "\"abc\" was read; a number such as 11.85 or 11,85"));
}

TEST_CASE("A figure with a thousands mark is refused") {
    auto draft = good_draft();
    draft.mass_kg = "1.234,5";
    CHECK(says(only_reason(draft, "Weight"), "\"1.234,5\" was read"));
}

TEST_CASE("An empty figure is missing, not zero") {
    auto draft = good_draft();
    draft.figure(Property::protein).value = " ";
    draft.bag_kg = "";
    draft.price_per_tonne = "";
    const auto lot = accept(draft, SmallPlant{}.context());
    REQUIRE(lot);
    CHECK(lot->certificate.find(Property::protein) == nullptr);
    CHECK(lot->bag == Grams{0});
}

TEST_CASE("A milling date after the delivery is refused with both days") {
    auto draft = good_draft();
    draft.milled_on = "2026-11-21";
    const auto reason = only_reason(draft, "Milled on");
    CHECK(says(reason, "2026-11-21 was read, which is after the delivery on 2026-11-20"));
    draft.milled_on = "2026-11-20";
    CHECK(refused(draft).empty());
}

TEST_CASE("A delivery after today is refused, one on today is not") {
    auto draft = good_draft();
    draft.delivered_on = "2026-11-26";
    CHECK(says(only_reason(draft, "Delivered on"), "after today, 2026-11-25"));
    draft.delivered_on = "2026-11-25";
    CHECK(refused(draft).empty());
    draft.delivered_on = "";
    CHECK(accept(draft, SmallPlant{}.context())->delivered_on == SmallPlant{}.today);
}

TEST_CASE("A year typed wrong is refused") {
    auto draft = good_draft();
    draft.milled_on = "2016-11-16";
    CHECK(says(only_reason(draft, "Milled on"), "years ago"));
    draft.milled_on = "";
    draft.delivered_on = "0026-11-20";
    draft.best_before = "";
    CHECK(says(only_reason(draft, "Delivered on"), "Check the year"));
}

TEST_CASE("A lot may come without its milling date, and without a certificate") {
    auto draft = good_draft();
    draft.milled_on = "";
    draft.figures.clear();
    const auto lot = accept(draft, SmallPlant{}.context());
    REQUIRE(lot);
    CHECK(!lot->milled_on);
    CHECK(lot->certificate.values().empty());
}

TEST_CASE("A certificate figure without its basis is refused; as is, it needs the moisture") {
    auto draft = good_draft();
    draft.figure(Property::protein).basis = "";
    CHECK(says(only_reason(draft, "Protein"), "12.4 % was read without its moisture basis"));
    draft.figure(Property::protein).basis = "as is";
    CHECK(refused(draft).empty());
    draft.figure(Property::moisture).value = "";
    CHECK(says(only_reason(draft, "Protein"), "the flour's moisture is not known"));
    draft.figure(Property::protein).basis = "wet";
    CHECK(says(only_reason(draft, "Protein"), "the basis \"wet\" was read"));
}

TEST_CASE("Moisture is a share of the flour as it lies there, on no other basis") {
    auto draft = good_draft();
    draft.figure(Property::moisture).basis = "as is";
    CHECK(refused(draft).empty());
    draft.figure(Property::moisture).basis = "dry matter";
    CHECK(says(only_reason(draft, "Moisture"), "\"dry matter\" was read; as is is expected"));
}

TEST_CASE("Protein keeps the nitrogen factor it was reported with") {
    auto draft = good_draft();
    draft.figure(Property::protein).nitrogen_factor = "6,25";
    draft.figure(Property::protein).value = "13.158";
    const auto lot = accept(draft, SmallPlant{}.context());
    REQUIRE(lot);
    CHECK(**value_at_14(lot->certificate, Property::protein) == Approx(12.0).margin(0.001));
    draft.figure(Property::protein).nitrogen_factor = "57";
    CHECK(says(only_reason(draft, "Nitrogen factor"), "from 5 to 7 is expected"));
}

TEST_CASE("A property that stands twice is refused, not silently replaced") {
    auto draft = good_draft();
    draft.figures.push_back({Property::protein, "11.0", "as is", "", ""});
    CHECK(says(only_reason(draft, "Protein"), "stands twice; the second figure is 11 %"));
    draft.figures.back().value = "";
    CHECK(refused(draft).empty());
}

TEST_CASE("All reasons come at once") {
    LotDraft draft = good_draft();
    draft.code = "  ";
    draft.mill = "Nowhere Mill";
    draft.flour = "";
    draft.place = "Bay 9";
    draft.milled_on = "16.11.2026";
    draft.mass_kg = "";
    draft.figure(Property::moisture).value = "140";
    draft.figure(Property::absorption).value = "abc";
    draft.mill_oxidant_ppm = "20";
    const auto refusals = refused(draft);
    INFO(all_words(refusals));
    CHECK(refusals.size() == 9);
    for (const char* field : {"Lot number", "Mill", "Flour", "Place", "Milled on", "Weight", "Moisture",
                              "Absorption", "Oxidant added by the mill"}) {
        INFO(field);
        CHECK(reasons_for(refusals, field).size() == 1);
    }
    CHECK(says(reasons_for(refusals, "Mill").front(),
               "\"Nowhere Mill\" is not known. Choose one of: Weir Mill, "
               "Ridge Mill"));
    CHECK(draft.figure(Property::absorption).value == "abc"); // what was typed is still there
}

TEST_CASE("A lot number is one line") {
    auto draft = good_draft();
    draft.code = " W26-119 ";
    CHECK(accept(draft, SmallPlant{}.context())->code == "W26-119");
    draft.code = "W26\n119";
    CHECK(says(only_reason(draft, "Lot number"), "\"W26?119\" was read"));
    draft.code = std::string(81, 'W');
    CHECK(says(only_reason(draft, "Lot number"), "up to 80"));
}

TEST_CASE("A bag heavier than its lot, a weight of nothing and of a thousand tonnes are refused") {
    auto draft = good_draft();
    draft.bag_kg = "25";
    draft.mass_kg = "20";
    CHECK(says(only_reason(draft, "Weight of a bag"), "more than the whole lot"));
    draft.bag_kg = "";
    draft.mass_kg = "0";
    CHECK(says(only_reason(draft, "Weight"), "from 0.1 to 1000000 kg"));
    draft.mass_kg = "1000001";
    CHECK(says(only_reason(draft, "Weight"), "1000001 was read"));
}

TEST_CASE("A best-before day that is not after the milling is refused") {
    auto draft = good_draft();
    draft.best_before = "2026-11-16";
    CHECK(says(only_reason(draft, "Best before"), "not after the milling"));
}

TEST_CASE("Names are found with blanks around them, and a plant without mills says to add one") {
    auto draft = good_draft();
    draft.mill = " Weir Mill ";
    CHECK(refused(draft).empty());
    SmallPlant plant;
    plant.mills.clear();
    const auto none = accept(draft, plant.context());
    REQUIRE(!none);
    CHECK(says(all_words(none.refusals()), "The book has none yet: add it first"));
}

TEST_CASE("What the mill added needs its substance and its dose, each substance once") {
    auto draft = good_draft();
    draft.mill_oxidant = "Ascorbic acid";
    draft.mill_oxidant_ppm = "30";
    draft.further_additions = {{"azodicarbonamide", "12,5"}};
    const auto lot = accept(draft, SmallPlant{}.context());
    REQUIRE(lot);
    REQUIRE(lot->mill_additions.size() == 2);
    CHECK(lot->mill_additions[0] == MillAddition{Substance::ascorbic_acid, OxidantPpm{30}});
    CHECK(lot->mill_additions[1] == MillAddition{Substance::azodicarbonamide, OxidantPpm{12.5}});

    draft.further_additions = {{"ascorbic_acid", "5"}};
    CHECK(says(only_reason(draft, "Oxidant added by the mill"), "Ascorbic acid stands twice"));
    draft.further_additions.clear();
    draft.mill_oxidant_ppm = "";
    CHECK(says(only_reason(draft, "Dose added by the mill"), "is empty"));
    draft.mill_oxidant_ppm = "3000";
    CHECK(says(only_reason(draft, "Dose added by the mill"), "from 0.1 to 1000 mg/kg"));
    draft.mill_oxidant = "pixie dust";
    CHECK(says(only_reason(draft, "Oxidant added by the mill"), "\"pixie dust\" is not known"));
    draft.mill_oxidant = " ";
    draft.mill_oxidant_ppm = " ";
    CHECK(refused(draft).empty());
}

TEST_CASE("A figure of the draft is made once and then found") {
    LotDraft draft;
    draft.figure(Property::ash).value = "0.5";
    draft.figure(Property::ash).basis = "dm";
    REQUIRE(draft.figures.size() == 1);
    CHECK(draft.figures.front().value == "0.5");
}

} // namespace mellowbin
