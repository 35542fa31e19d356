#include "core/delivery.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/refusal_words.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using testing::all_words;

namespace {

const HouseUnits kilos, pounds("lb", "°F");

DeliveryContext of_lots(std::int64_t kg, const HouseUnits& units = kilos) {
    DeliveryContext context;
    context.units = units;
    context.weights.of_lots = Grams{kg * 1000};
    context.weights.of_expected_flour = context.weights.of_lots;
    return context;
}

std::string why_not(const DeliveryDraft& draft, const DeliveryContext& context) {
    const auto record = accept(draft, context);
    return record ? std::string() : all_words(record.refusals());
}

DeliveryDraft with_note(const std::string& weight) {
    DeliveryDraft draft;
    draft.on_note = weight;
    return draft;
}

ExpectedDelivery expected(int id, const char* arrives, int mill = 1, int flour = 1) {
    ExpectedDelivery one;
    one.id = ExpectedId{id};
    one.code = "E-" + std::to_string(id);
    one.mill = MillId{mill};
    one.flour = FlourId{flour};
    one.mass = Grams{12'000'000};
    one.arrives = day_from_iso(arrives);
    return one;
}

std::string codes(const std::vector<const ExpectedDelivery*>& found) {
    std::string words;
    for (const auto* one : found)
        words += (words.empty() ? "" : " ") + one->code;
    return words;
}

} // namespace

TEST_CASE("Just as much as the tolerance is let be, and a gram more is not, to both sides") {
    auto context = of_lots(0);
    const auto is_let_be = [&](std::int64_t grams) {
        context.weights.of_lots = Grams{grams};
        return accept(with_note("12000"), context) ? true : false;
    };
    CHECK(is_let_be(12'000'000));
    CHECK(is_let_be(11'940'000)); // 0.5 % of 12 t are 60 kg
    CHECK_FALSE(is_let_be(11'939'999));
    CHECK(is_let_be(12'060'000));
    CHECK_FALSE(is_let_be(12'060'001));
    context.tolerance_percent = 1;
    CHECK(is_let_be(11'880'000));
    CHECK_FALSE(is_let_be(11'879'999));
    context.tolerance_percent = 0;
    CHECK(is_let_be(12'000'000));
    CHECK_FALSE(is_let_be(11'999'999));
}

TEST_CASE("Weights that differ are refused with both figures until somebody says why, and then the reason is "
          "kept") {
    auto draft = with_note("12 000");
    const auto words = why_not(draft, of_lots(11'900));
    CHECK_THAT(words,
               Contains("Weight on the note: 11 900 kg of lots, 12 000 kg on the note: 0.83 % less; up to "
                        "0.5 % is let be"));
    CHECK_THAT(words, Contains("Why weights differ: is empty"));
    draft.weight_reason = "  one pallet was left at the mill ";
    const auto record = accept(draft, of_lots(11'900));
    REQUIRE(record);
    CHECK(record->weight_reason == "one pallet was left at the mill");
    CHECK(record->on_note == Grams{12'000'000});
    CHECK(accept(draft, of_lots(12'000))->weight_reason.empty()); // nothing differs: no reason is kept
}

TEST_CASE("What was weighed is held against the note, and against the lots where the note says nothing") {
    auto draft = with_note("12000");
    draft.weighed = "11900";
    CHECK_THAT(why_not(draft, of_lots(12'000)),
               Contains("Weighed: 11 900 kg weighed, 12 000 kg on the note: 0.83 % less"));
    draft.on_note.clear();
    CHECK_THAT(why_not(draft, of_lots(12'000)), Contains("Weighed: 11 900 kg weighed, 12 000 kg of lots"));
    draft.weighed = "11 990,5";
    CHECK(accept(draft, of_lots(12'000))->weighed == Grams{11'990'500});
}

TEST_CASE("What was expected counts the lots of its flour alone") {
    auto context = of_lots(14'000);
    context.weights.expected = Grams{12'000'000};
    context.weights.of_expected_flour = Grams{12'030'000};
    CHECK(why_not({}, context).empty());
    context.weights.of_expected_flour = Grams{12'100'000};
    CHECK_THAT(why_not({}, context),
               Contains("Expected delivery: 12 100 kg here, 12 000 kg expected: 0.83 % more"));
}

TEST_CASE("As long as lots are still to come, too little is no fault and too much is") {
    auto context = of_lots(5'000);
    context.weights.expected = Grams{12'000'000};
    context.weights.rest = Rest::follows;
    auto draft = with_note("12000");
    CHECK(why_not(draft, context).empty());
    draft.weighed = "12000";
    CHECK(why_not(draft, context).empty());
    draft = {};
    draft.weighed = "12000"; // beside lots alone
    CHECK(why_not(draft, context).empty());
    context.weights.of_lots = context.weights.of_expected_flour = Grams{12'100'000};
    CHECK_THAT(why_not(with_note("12000"), context), Contains("0.83 % more"));
}

TEST_CASE("In a house of pounds weights are read and told in pounds, and a unit behind a figure wins") {
    // 26 455.5 lb are 12 000.01 kg by definition of the pound, 0.45359237 kg.
    const auto record = accept(with_note("26455.5"), of_lots(12'000, pounds));
    REQUIRE(record);
    CHECK(record->on_note == Grams{12'000'013});
    CHECK(accept(with_note("12000 kg"), of_lots(12'000, pounds))->on_note == Grams{12'000'000});
    CHECK(accept(with_note("26 455,5 lb"), of_lots(12'000))->on_note == Grams{12'000'013});
    CHECK_THAT(why_not(with_note("27000"), of_lots(12'000, pounds)),
               Contains("26 455.5 lb of lots, 27 000 lb on the note: 2.0 % less"));
    CHECK_THAT(why_not(with_note("12000"), of_lots(12'000, pounds)), Contains("Why weights differ"));
}

TEST_CASE("Every field that cannot be read is refused at once") {
    DeliveryDraft draft;
    draft.on_note = "12 tonnes";
    draft.weighed = "-5";
    draft.order = std::string(81, '1');
    const auto words = why_not(draft, of_lots(12'000));
    CHECK_THAT(words,
               Contains("Weight on the note: ") && Contains("Weighed: ") && Contains("Order number: "));
    draft = {};
    draft.order = " PO-4711 ";
    CHECK(accept(draft, of_lots(1))->order == "PO-4711");
}

TEST_CASE("Candidates are of the mill, of the flour where one is chosen, and the nearest day comes first") {
    const std::vector<ExpectedDelivery> all{expected(1, "2026-11-20"),       expected(2, "2026-11-27"),
                                            expected(3, "2026-11-26"),       expected(4, "2026-11-25", 2),
                                            expected(5, "2026-11-25", 1, 2), expected(6, "2026-12-03")};
    const Day today = day_from_iso("2026-11-25");
    CHECK(codes(candidates(all, MillId{1}, FlourId{1}, today, 7)) == "E-3 E-2 E-1");
    CHECK(codes(candidates(all, MillId{1}, {}, today, 7)) == "E-5 E-3 E-2 E-1");
    CHECK(codes(candidates(all, MillId{1}, FlourId{1}, today, 8)) == "E-3 E-2 E-1 E-6");
    CHECK(codes(candidates(all, MillId{1}, FlourId{1}, today, 0)).empty());
    CHECK(codes(candidates(all, MillId{3}, {}, today, 7)).empty());
    auto come = all;
    come[2].has_come = true;
    CHECK(codes(candidates(come, MillId{1}, FlourId{1}, today, 7)) == "E-2 E-1");
}

TEST_CASE("An order number finds its delivery by all of its signs, and never one of two") {
    std::vector<ExpectedDelivery> all{expected(1, "2026-11-20"), expected(2, "2026-11-27", 2),
                                      expected(3, "2026-11-28")};
    all[0].order = "4711";
    all[1].order = "4712";
    const auto code_of = [&](std::string_view order, std::optional<MillId> mill = {}) {
        const auto* found = of_order(all, order, mill);
        return found ? found->code : std::string();
    };
    CHECK(code_of("4711") == "E-1");
    CHECK(code_of("471").empty());
    CHECK(code_of("").empty());
    CHECK(code_of("4712", MillId{1}).empty());
    all[1].order = "4711";
    CHECK(code_of("4711").empty());
    CHECK(code_of("4711", MillId{2}) == "E-2");
    all[1].has_come = true;
    CHECK(code_of("4711") == "E-1");
}

TEST_CASE("Late and early are told in days") {
    const Day day = day_from_iso("2026-11-25");
    CHECK(days_beside(day, day) == "on the day");
    CHECK(days_beside(day + Days{1}, day) == "1 day late");
    CHECK(days_beside(day - Days{3}, day) == "3 days early");
}
