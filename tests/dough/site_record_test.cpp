#include "dough/keeping.h"
#include "dough/site_record.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::dough;
using Catch::Matchers::Contains;

namespace {

const ProductId bread{1};

KeepingRecord look(const char* baked_on, int days, bool mould) {
    KeepingRecord record;
    record.product = bread;
    record.kind = KeepingKind::mould;
    record.baked_on = day_from_iso(baked_on);
    record.days = days;
    record.mould_seen = mould;
    return record;
}

KeepingRecord firmness(int days, double grams) {
    KeepingRecord record;
    record.product = bread;
    record.kind = KeepingKind::firmness;
    record.baked_on = day_from_iso("2026-11-20");
    record.days = days;
    record.firmness_g = grams;
    return record;
}

} // namespace

TEST_CASE("A site's record tells the earliest mould and how long every bake was free of it") {
    const std::vector records{look("2026-11-01", 7, false), look("2026-11-01", 9, true),
                              look("2026-11-03", 8, false), look("2026-11-05", 8, false),
                              look("2026-11-05", 10, true)};
    const auto site = site_mould(records, bread);
    CHECK(site.bakes == 3);
    CHECK(site.bakes_with_mould == 2);
    CHECK(site.earliest == 9);
    CHECK(site.free_to == 7); // the least that three bakes were looked at and clean
}

TEST_CASE("Two bakes are too few to say how long bread keeps") {
    const std::vector records{look("2026-11-01", 7, false), look("2026-11-03", 8, false)};
    CHECK_FALSE(site_mould(records, bread).free_to);
}

TEST_CASE("Withdrawn records, other products and firmness count for nothing") {
    auto withdrawn = look("2026-11-01", 3, true);
    withdrawn.is_withdrawn = true;
    auto other = look("2026-11-01", 2, true);
    other.product = ProductId{2};
    const std::vector records{withdrawn, other, firmness(1, 300)};
    CHECK(site_mould(records, bread).bakes == 0);
}

TEST_CASE("Mould before the sixth day asks for cleaning first, then for souring, and for the dose last") {
    const std::vector records{look("2026-11-01", 5, true)};
    const auto advice = keeping_advice(site_mould(records, bread), 5.9, true);
    REQUIRE(advice.size() == 3);
    CHECK_THAT(advice[0], Contains("Clean first") && Contains("day 5"));
    CHECK_THAT(advice[1], Contains("Then sour the dough: 8.5 % of the acid works at pH 5.90"));
    CHECK_THAT(advice[2], Contains("Only then"));
}

TEST_CASE("Mould from the sixth day on is not early") {
    CHECK(is_early_mould(5));
    CHECK_FALSE(is_early_mould(6));
    const std::vector records{look("2026-11-01", 6, true)};
    CHECK(keeping_advice(site_mould(records, bread), 5.2, true).empty());
}

TEST_CASE("A later clean bake takes the warning of an earlier one back; one still young does not") {
    std::vector records{look("2026-11-01", 4, true), look("2026-11-10", 2, false)};
    CHECK(site_mould(records, bread).newest_mould == 4);
    records.push_back(look("2026-11-12", 7, false));
    CHECK_FALSE(site_mould(records, bread).newest_mould);
}

TEST_CASE(
    "Bread without a preservative that moulds early is cleaned for first, and then given cultured wheat") {
    const std::vector records{look("2026-11-01", 5, true)}; // common practice, no source
    const auto advice = keeping_advice(site_mould(records, bread), 5.9, false);
    REQUIRE(advice.size() == 2);
    CHECK_THAT(advice[0], Contains("Clean first"));
    CHECK_THAT(advice[1], Contains("Only then") && Contains("cultured wheat"));
}

TEST_CASE(
    "What the trade says of keeping is told with its mark, of whole wheat bread that it moulds sooner") {
    const auto of = [](FlourClass flour) { // all of it: common practice, no source
        std::string words;
        for (const auto& one : keeping_practice(flour)) {
            CHECK(one.ends_with(" (common practice, no source)"));
            words += one + "\n";
        }
        return words;
    };
    for (const auto flour : {FlourClass::white, FlourClass::wholemeal})
        CHECK_THAT(of(flour), Contains("Propionate and cultured wheat want a dough below pH 5.6 (") &&
                                  Contains("Mould before day 6: clean first, then cultured wheat (") &&
                                  Contains("Amylase holds staling off") &&
                                  Contains("measured as firmness ("));
    CHECK_THAT(of(FlourClass::wholemeal),
               Contains("Whole wheat bread moulds sooner than white, being moister"));
    CHECK_THAT(of(FlourClass::white), !Contains("Whole wheat"));
}

TEST_CASE("Firmness is shown as it was measured, day by day, with the spread of its loaves") {
    const std::vector records{firmness(1, 300), firmness(1, 340), firmness(4, 520)};
    const auto days = firmness_by_day(records, bread);
    REQUIRE(days.size() == 2);
    CHECK(days[0].mean == Approx(320));
    CHECK(days[0].low == 300);
    CHECK(days[0].high == 340);
    CHECK(days[1].loaves == 1);
}
