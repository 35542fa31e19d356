#include "core/lot.h"
#include "core/pallet.h"
#include "support/catch.h"
#include "support/good_lot.h"

#include <algorithm>

using namespace mellowbin;
using Catch::Matchers::Contains;

namespace {

// Of GS1's own examples of pallets and of the tests of zint (backend/tests/test_gs1.c) and BWIPP.
constexpr const char* valid[] = {"106141411234567897", "376104250021234569", "123456789012345675"};

} // namespace

TEST_CASE("The check digit is the one that GS1 works out") {
    CHECK(gs1_check_digit("629104150021") ==
          '3'); // worked out on gs1.org, "how to calculate a check digit manually"
    CHECK(gs1_check_digit("37610425002123456") == '9');
    for (const char* sscc : valid) {
        INFO(sscc);
        CHECK_FALSE(why_no_sscc(sscc));
    }
}

TEST_CASE(
    "Any one digit of an SSCC that is wrong is found, and the words say which check digit is expected") {
    for (const char* sscc : valid)
        for (std::size_t at = 0; at < 18; ++at) {
            std::string wrong = sscc;
            wrong[at] = wrong[at] == '9' ? '0' : static_cast<char>(wrong[at] + 1);
            INFO(wrong);
            CHECK(why_no_sscc(wrong));
        }
    CHECK_THAT(*why_no_sscc("106141411234567890"),
               Contains("the check digit of \"106141411234567890\" is wrong: 7 is expected"));
    CHECK_THAT(*why_no_sscc("10614141123456789"), Contains("18 digits of an SSCC are expected"));
    CHECK_THAT(*why_no_sscc("10614141123456789X"), Contains("18 digits"));
}

TEST_CASE("An SSCC is read with blanks between its digits, with (00) or 00 in front, and is shown in fours") {
    for (const char* typed : {"106141411234567897", " 1 0614141 123456789 7 ", "(00)106141411234567897",
                              "(00) 1 0614141 123456789 7", "00106141411234567897"}) {
        INFO(typed);
        CHECK(sscc_digits(typed) == "106141411234567897");
    }
    CHECK(sscc_digits("pallet 7") == "pallet7");
    CHECK(sscc_in_words("106141411234567897") == "1061 4141 1234 5678 97");
}

TEST_CASE("Pallets are read with their weights, and every fault is said at once at its own field") {
    Refusals refusals;
    const auto pallets = read_pallets(
        std::vector<PalletDraft>{{"106141411234567897", "1 000,5"}, {"", ""}, {"376104250021234569", ""}},
        refusals);
    CHECK(refusals.empty());
    REQUIRE(pallets.size() == 2);
    CHECK(pallets[0] == Pallet{"106141411234567897", {}, Grams{1'000'500}});
    CHECK(pallets[1] == Pallet{"376104250021234569", {}, {}});

    read_pallets(std::vector<PalletDraft>{{"106141411234567890", "x"},
                                          {"376104250021234569", ""},
                                          {"(00)376104250021234569", ""},
                                          {"", "500"}},
                 refusals);
    REQUIRE(refusals.size() == 4);
    CHECK(refusals[0].field == "Pallet 1: weight");
    CHECK(refusals[1].field == "Pallet 1");
    CHECK_THAT(refusals[2].field + refusals[2].what, Contains("Pallet 3") && Contains("stands twice"));
    CHECK_THAT(refusals[3].field + refusals[3].what, Contains("Pallet 4") && Contains("no SSCC"));
}

TEST_CASE("A lot is refused with the faults of its pallets beside its own") {
    const testing::SmallPlant plant;
    auto draft = testing::good_draft();
    draft.pallets = {{"106141411234567890", ""}};
    draft.mass_kg = "heavy";
    const auto lot = accept(draft, plant.context());
    REQUIRE_FALSE(lot);
    const auto has = [&](std::string_view field) {
        return std::any_of(lot.refusals().begin(), lot.refusals().end(),
                           [&](const Refusal& refusal) { return refusal.field == field; });
    };
    CHECK(has("Pallet 1"));
    CHECK(has("Weight"));
}
