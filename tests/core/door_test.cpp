#include "core/door.h"
#include "support/good_lot.h"
#include "support/refusal_words.h"

namespace mellowbin {
namespace {

using testing::all_words;
using testing::good_draft;
using testing::good_lot;
using testing::reasons_for;
using testing::says;

const std::vector<std::string> questions{"Seal whole", "Bags dry", "Bags as on the note"};

const std::vector<std::string> lots{"A-1", "A-2"};

std::vector<DoorCheck> checks_of(const std::string& lot, const std::vector<DoorCheckDraft>& drafts) {
    const auto door = accept(drafts, questions, lots);
    REQUIRE(door);
    return door->at(lot);
}

std::string why_not(const std::vector<DoorCheckDraft>& drafts) {
    const auto checks = accept(drafts, questions, lots);
    REQUIRE(!checks);
    return all_words(checks.refusals());
}

struct WetFlourPlant : testing::SmallPlant {
    WetFlourPlant() { flours[0].specification = {{Property::moisture, {}, 14.5, ""}}; }
    [[nodiscard]] Refusals refused(const LotDraft& draft) const {
        const auto lot = accept(draft, context());
        return lot ? Refusals{} : lot.refusals();
    }
};

} // namespace

TEST_CASE("Each check at the door is answered yes, no or not looked at, with bags and a note") {
    const auto checks =
        checks_of("A-2", {{"Bags dry", "no", "3", " wet at one corner "}, {"seal", "YES", "", ""}});
    REQUIRE(checks.size() == 3);
    CHECK(checks[0] == DoorCheck{"Seal whole", DoorAnswer::yes, "", 0});
    CHECK(checks[1] == DoorCheck{"Bags dry", DoorAnswer::no, "wet at one corner", 3});
    CHECK(checks[2].answer == DoorAnswer::not_looked_at);
    CHECK(in_words(checks) == "At the door: Bags dry: no, 3 bags, wet at one corner; 1 yes; 1 not looked at");
    CHECK(checks_of("A-1", {}).empty());
}

TEST_CASE("A check that names a lot is of that lot alone, before what was answered of the whole delivery") {
    const std::vector<DoorCheckDraft> drafts{{"Bags dry", "no", "3", "wet at one corner", " A-2"},
                                             {"Bags dry", "yes", "", ""},
                                             {"Seal", "no", "", "", "A-1"}};
    CHECK(in_words(checks_of("A-2", drafts)) ==
          "At the door: Bags dry: no, 3 bags, wet at one corner; 2 not looked at");
    CHECK(in_words(checks_of("A-1", drafts)) == "At the door: Seal whole: no; 1 yes; 1 not looked at");
    CHECK(says(why_not({{"Bags dry", "no", "", "", "A-3"}}),
               "At the door: Bags dry, lot A-3: \"A-3\" is no lot of this delivery. Name one of: A-1, A-2"));
    CHECK(says(why_not({{"Bags dry", "no", "x", "", "A-1"}}),
               "At the door: Bags dry, lot A-1: Bags: \"x\" was read"));
    CHECK(says(why_not({{"Bags dry", "no", "", "", "A-1"}, {"Bags dry", "yes", "", "", "A-1"}}),
               "At the door: Bags dry, lot A-1: stands twice"));
}

TEST_CASE("A check that cannot be read is refused with what was read, all reasons at once") {
    const auto words = why_not({{"Bags dry", "maybe", "2,5", ""},
                                {"Seal", "not looked at", "4", ""},
                                {"Insects", "no", "", ""},
                                {"", "yes", "", ""},
                                {"Bags", "yes", "", ""}});
    CHECK(says(words, "At the door: Bags dry: \"maybe\" was read; yes, no or not looked at is expected"));
    CHECK(says(words, "At the door: Bags dry: Bags: 2.5 was read; a whole number is expected"));
    CHECK(says(words, "At the door: Seal whole: 4 bags were read of a check that nobody answered"));
    CHECK(says(words, "\"Insects\" is none of the questions. Choose one of: Seal whole; Bags dry"));
    CHECK(says(words, "a check without its question was read"));
    CHECK(says(words, "\"Bags\" begins more than one question"));
    CHECK(says(why_not({{"Bags dry", "yes", "-3", ""}}), "Bags: -3 was read; from 1 to"));
    CHECK(says(why_not({{"Bags dry", "yes", "x", ""}}), "Bags: \"x\" was read"));
    CHECK(says(why_not({{"Seal", "yes", "", ""}, {"Seal whole", "no", "", ""}}),
               "At the door: Seal whole: stands twice"));
}

TEST_CASE("A \"no\" at the door holds the lot with the reason in words, and nothing else does") {
    Lot lot = good_lot();
    check_at_door(lot,
                  {{"Seal whole", DoorAnswer::yes, "", 0}, {"Bags dry", DoorAnswer::not_looked_at, "", 0}});
    CHECK(lot.state == LotState::awaiting_judgement);
    CHECK(lot.door.size() == 2);
    check_at_door(
        lot, {{"Seal whole", DoorAnswer::no, "", 1}, {"Bags dry", DoorAnswer::no, "wet at one corner", 3}});
    CHECK(lot.state == LotState::held);
    CHECK(lot.state_reason == "At the door: Seal whole: no, 1 bag; Bags dry: no, 3 bags, wet at one corner");
}

TEST_CASE("A best-before day that is over is asked about, and the last day itself is not") {
    const WetFlourPlant plant;
    auto draft = good_draft();
    draft.best_before = "2026-11-24";
    auto refusals = plant.refused(draft);
    REQUIRE(refusals.size() == 2);
    CHECK(says(reasons_for(refusals, "Best before").front(),
               "2026-11-24 was read, which is over: today is 2026-11-25"));
    CHECK(says(reasons_for(refusals, std::string(accept_field)).front(), "Say it in a few words"));
    draft.accept_reason = " \t ";
    CHECK(plant.refused(draft).size() == 2);
    draft.accept_reason = "the mill takes it back on Monday";
    CHECK(plant.refused(draft).empty());
    draft.accept_reason = "";
    draft.best_before = "2026-11-25";
    CHECK(plant.refused(draft).empty());
}

TEST_CASE("Moisture over the flour's specification is asked about, at its field, with both figures") {
    const WetFlourPlant plant;
    auto draft = good_draft();
    draft.figure(Property::moisture).value = "14.6";
    auto refusals = plant.refused(draft);
    REQUIRE(reasons_for(refusals, "Moisture").size() == 1);
    CHECK(says(reasons_for(refusals, "Moisture").front(),
               "14.6 %, above at most 14.5 %: over the flour's specification"));
    draft.accept_reason = "used today";
    CHECK(plant.refused(draft).empty());
    draft.accept_reason = "";
    draft.flour = "Wholemeal flour"; // has no specification
    CHECK(plant.refused(draft).empty());
}

TEST_CASE(
    "A certificate older than the milling is asked about; one after today is refused whatever is said") {
    const WetFlourPlant plant;
    auto draft = good_draft(); // milled on 2026-11-16
    draft.certified_on = "2026-11-16";
    CHECK(plant.refused(draft).empty());
    CHECK(accept(draft, plant.context())->certified_on == Day{date::year{2026} / 11 / 16});
    draft.certified_on = "2026-11-15";
    CHECK(says(reasons_for(plant.refused(draft), "Certificate date").front(),
               "2026-11-15 was read: the certificate is older than the milling on 2026-11-16"));
    draft.accept_reason = "the mill's standing certificate";
    CHECK(plant.refused(draft).empty());
    draft.certified_on = "2026-11-26";
    CHECK(says(all_words(plant.refused(draft)), "after today, 2026-11-25"));
    draft.certified_on = "16.11.2026";
    CHECK(says(all_words(plant.refused(draft)), "\"16.11.2026\" was read"));
    draft.certified_on = "2026-11-15";
    draft.accept_reason = "";
    draft.milled_on = "";
    CHECK(plant.refused(draft).empty());
}

TEST_CASE("Flour that came warm is asked about from the plant's limit on, in the house's unit") {
    const WetFlourPlant plant;
    auto draft = good_draft();
    draft.delivered_c = "29,9";
    CHECK(plant.refused(draft).empty());
    CHECK(accept(draft, plant.context())->delivered_at == Celsius{29.9});
    draft.delivered_c = "30";
    CHECK(says(reasons_for(plant.refused(draft), "Flour temperature").front(),
               "30.0 °C was read: the flour came warm, 30.0 °C or more"));

    auto context = plant.context();
    context.units = HouseUnits("lb", "°F");
    draft.delivered_c = "85";
    CHECK(accept(draft, context));
    draft.delivered_c = "86.5";
    CHECK(
        says(all_words(accept(draft, context).refusals()), "86.5 °F was read: the flour came warm, 86.0 °F"));
    draft.delivered_c = "21 °C"; // as a file has it
    CHECK(accept(draft, context)->delivered_at == Celsius{21});
    draft.delivered_c = "21";
    CHECK(accept(draft, context)->delivered_at->value() == Approx(-6.11).margin(0.01));
    draft.delivered_c = "200";
    CHECK(says(all_words(accept(draft, context).refusals()),
               "Flour temperature: 200 was read; from -40 to 140 °F"));
    draft.delivered_c = "warm";
    CHECK(says(all_words(plant.refused(draft)), "Flour temperature: \"warm\" was read"));
}

TEST_CASE("Everything that stands against a lot comes at once, beside what cannot be read") {
    const WetFlourPlant plant;
    auto draft = good_draft();
    draft.best_before = "2026-11-20";
    draft.certified_on = "2026-11-01";
    draft.delivered_c = "35";
    draft.figure(Property::moisture).value = "15";
    draft.mass_kg = "much";
    const auto refusals = plant.refused(draft);
    INFO(all_words(refusals));
    CHECK(refusals.size() == 6);
}

TEST_CASE("The last day is what quality extended it to, else what the supplier printed") {
    Lot lot = good_lot();
    CHECK(last_day(lot) == lot.best_before);
    lot.best_before.reset();
    CHECK(!last_day(lot));
    lot.best_before = Day{date::year{2026} / 11 / 10};
    const Day today{date::year{2026} / 11 / 25};
    const auto extended = with_extension(lot, "2026-12-24", " still sound ", "Ines", today);
    REQUIRE(extended);
    CHECK(last_day(*extended) == Day{date::year{2026} / 12 / 24});
    CHECK(extended->extension == BestBeforeExtension{Day{date::year{2026} / 12 / 24}, "still sound", "Ines"});
    CHECK(extended->best_before == lot.best_before);
}

TEST_CASE("A best-before day is extended only beyond the one printed, not into the past, and with a reason") {
    Lot lot = good_lot();
    lot.best_before = Day{date::year{2026} / 11 / 10};
    const Day today{date::year{2026} / 11 / 25};
    const auto why = [&](const char* until, const char* reason) {
        const auto extended = with_extension(lot, until, reason, "Ines", today);
        return extended ? std::string() : all_words(extended.refusals());
    };
    CHECK(says(why("2026-11-10", "sound"),
               "2026-11-10 was read, which is not after the best-before day printed"));
    CHECK(says(why("2026-11-24", "sound"), "2026-11-24 was read, which is over: today is 2026-11-25"));
    CHECK(why("2026-11-25", "sound").empty());
    CHECK(says(why("24.12.2026", "sound"), "Until: \"24.12.2026\" was read"));
    CHECK(says(why("", ""), "Until: is empty"));
    CHECK(says(why("", ""), "Reason: is empty"));
    CHECK(says(why("2026-12-24", "  "), "Reason: is empty"));
    lot.best_before.reset();
    CHECK(says(why("2026-12-24", "sound"), "has no best-before day printed"));
}

} // namespace mellowbin
