#include "core/retest.h"
#include "support/good_lot.h"
#include "support/refusal_words.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

using testing::all_words;
using testing::good_lot;
using testing::reasons_for;
using testing::says;
using testing::SmallPlant;

/// The laboratory's day on a lot milled on 2026-11-16 and delivered on 2026-11-20.
RetestDraft good_retest() {
    RetestDraft draft;
    draft.taken_on = "2026-11-24";
    draft.place = "Bay 1";
    draft.note = "Second shift";
    draft.figures = {
        {Property::glutathione, "41,5", "14 % moisture", "", ""},
        {Property::extensograph_resistance, "322", "", "ISO 5530-2", ""},
        {Property::stability, "", "", "", ""},
    };
    return draft;
}

Result<Retest> accepted(const RetestDraft& draft, const Lot& lot = good_lot()) {
    const SmallPlant plant;
    return accept(draft, {plant.today, lot, plant.places});
}

Refusals refused(const RetestDraft& draft, const Lot& lot = good_lot()) {
    const auto retest = accepted(draft, lot);
    return retest ? Refusals{} : retest.refusals();
}

/// The one reason, and it is for this field.
std::string only_reason(const RetestDraft& draft, const std::string& field, const Lot& lot = good_lot()) {
    const auto refusals = refused(draft, lot);
    INFO(all_words(refusals));
    REQUIRE(refusals.size() == 1);
    REQUIRE(refusals.front().field == field);
    return in_words(refusals.front());
}

} // namespace

TEST_CASE("A retest as typed becomes the plant's own results, each with its basis and method") {
    Lot lot = good_lot();
    lot.id = LotId{7};
    const auto retest = accepted(good_retest(), lot);
    INFO((retest ? "" : all_words(retest.refusals())));
    REQUIRE(retest);
    CHECK(retest->lot == LotId{7});
    CHECK(retest->taken_on == Day{date::year{2026} / 11 / 24});
    CHECK(retest->place == PlaceId{1});
    CHECK(retest->note == "Second shift");
    REQUIRE(retest->results.values().size() == 2); // an empty figure is missing
    CHECK(retest->results.find(Property::glutathione)->value == 41.5);
    CHECK(retest->results.find(Property::glutathione)->basis == Basis::at(Moisture{14}));
    CHECK(retest->results.find(Property::extensograph_resistance)->method == "ISO 5530-2");
    CHECK_FALSE(retest->id.is_known());
    CHECK_FALSE(retest->is_withdrawn);
}

TEST_CASE("A retest without a day is of today, without a place of the lot as a whole") {
    auto draft = good_retest();
    draft.taken_on = draft.place = " ";
    const auto retest = accepted(draft);
    REQUIRE(retest);
    CHECK(retest->taken_on == SmallPlant{}.today);
    CHECK_FALSE(retest->place);
}

TEST_CASE("A retest before the lot was milled, or after today, is refused with both days") {
    auto draft = good_retest();
    draft.taken_on = "2026-11-15";
    CHECK(says(only_reason(draft, "Taken on"),
               "2026-11-15 was read, which is before the milling of lot W26-118 on 2026-11-16"));
    draft.taken_on = "2026-11-16";
    CHECK(refused(draft).empty());
    draft.taken_on = "2026-11-25";
    CHECK(refused(draft).empty());
    draft.taken_on = "2026-11-26";
    CHECK(says(only_reason(draft, "Taken on"), "2026-11-26 was read, which is after today, 2026-11-25"));
    draft.taken_on = "24.11.2026";
    CHECK(says(only_reason(draft, "Taken on"), "\"24.11.2026\" was read; a date such as"));
}

TEST_CASE("Where the milling date is not known, a retest may be 60 days older than the delivery") {
    Lot lot = good_lot();
    lot.milled_on.reset();
    auto draft = good_retest();
    draft.taken_on = "2026-09-21";
    CHECK(refused(draft, lot).empty());
    draft.taken_on = "2026-09-20";
    const auto reason = only_reason(draft, "Taken on", lot);
    CHECK(says(reason, "2026-09-20 was read; 2026-09-21 is the earliest expected, 60 days before"));
    CHECK(says(reason, "delivery of lot W26-118 on 2026-11-20"));
}

TEST_CASE("Zero, negative and impossible results are refused with what flour can have") {
    for (const auto& kind : all_properties()) {
        INFO(kind.key);
        const std::string basis = kind.has_basis ? "14 % moisture" : "";
        for (const char* value : {"0", "-1", "99999"}) {
            RetestDraft draft;
            draft.figures = {{kind.property, value, basis, "", ""}};
            const auto reason = only_reason(draft, std::string(kind.name));
            CHECK(says(reason, std::string(value) + " was read"));
            CHECK(says(reason, fmt::format("to {}", kind.highest)));
            CHECK(says(reason, std::string(kind.unit)));
        }
    }
}

TEST_CASE("A result that is no number, lacks its basis or stands twice is refused by name") {
    auto draft = good_retest();
    draft.figure(Property::extensograph_resistance).value = "322 EU";
    CHECK(says(only_reason(draft, "Extensograph resistance"), "\"322 EU\" was read; a number"));
    draft = good_retest();
    draft.figure(Property::glutathione).basis = "";
    CHECK(
        says(only_reason(draft, "Glutathione, reduced"), "41.5 nmol/g was read without its moisture basis"));
    draft = good_retest();
    draft.figures.push_back({Property::glutathione, "44", "14 % moisture", "", ""});
    CHECK(says(only_reason(draft, "Glutathione, reduced"), "stands twice; the second figure is 44"));
}

TEST_CASE("A result as is needs the moisture of its own sample, not the certificate's: flour dries") {
    auto draft = good_retest();
    draft.figure(Property::glutathione).basis = "as is";
    CHECK(says(only_reason(draft, "Glutathione, reduced"), "moisture is not known"));
    draft.figure(Property::moisture).value = "13.1";
    const auto retest = accepted(draft);
    REQUIRE(retest);
    CHECK(comparable_at_14(retest->results, Property::glutathione) == Approx(41.5 * 86 / 86.9));
}

TEST_CASE("A retest without any figure is refused, one with a bad figure only for the figure") {
    RetestDraft draft;
    CHECK(says(only_reason(draft, "Results"), "no figure was read; one at least is expected"));
    draft.figure(Property::fat_acidity).value = " ";
    CHECK(says(only_reason(draft, "Results"), "no figure was read"));
    draft.figure(Property::fat_acidity).value = "much";
    CHECK(says(only_reason(draft, "Fat acidity"), "\"much\" was read"));
}

TEST_CASE("All reasons against a retest come at once, and what was typed is still there") {
    auto draft = good_retest();
    draft.taken_on = "2026-12-24";
    draft.place = "Bay 9";
    draft.figure(Property::glutathione).value = "-4";
    draft.figure(Property::stability).value = "long";
    const auto refusals = refused(draft);
    INFO(all_words(refusals));
    CHECK(refusals.size() == 4);
    for (const char* field : {"Taken on", "Place", "Glutathione, reduced", "Stability"}) {
        INFO(field);
        CHECK(reasons_for(refusals, field).size() == 1);
    }
    CHECK(
        says(reasons_for(refusals, "Place").front(), "\"Bay 9\" is not known. Choose one of: Bay 1, Silo 2"));
    CHECK(draft.figure(Property::stability).value == "long");
}

} // namespace mellowbin
