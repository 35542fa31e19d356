#include "core/own_test.h"
#include "support/catch.h"
#include "support/iso.h"

#include <fmt/format.h>

using namespace mellowbin;
using Catch::Matchers::Contains;

namespace {

constexpr OwnTesting every{TestingPlan::every_lot, 4}, switching{TestingPlan::switching, 4},
    skipping{TestingPlan::skip_lot, 4};

/// Lots L1, L2, … of these signs: 'A' inside, 'x' outside, '-' not tested; '|' a complaint was answered.
std::vector<TestedLot> lots(const std::string& signs) {
    std::vector<TestedLot> all;
    bool is_mended = false;
    for (const char sign : signs) {
        if (sign != '|')
            all.push_back({fmt::format("L{}", all.size() + 1),
                           sign == '-' ? std::nullopt : std::optional(sign == 'A'), is_mended});
        is_mended = sign == '|';
    }
    return all;
}

/// A lot number that is drawn, one in four, or that is not.
std::string number_that_is(bool drawn) {
    for (int i = 1;; ++i)
        if (is_drawn("Weir Mill", fmt::format("W{}", i), 4) == drawn)
            return fmt::format("W{}", i);
}

std::string words(const OwnTesting& testing, const std::string& before, const std::string& code = "W1",
                  int taken = 0) {
    return in_words(own_test_due(testing, "Weir Mill", code, lots(before), before.ends_with('|')), taken);
}

Retest retest(const char* day, Property property, double value) {
    Retest test;
    test.taken_on = day_from_iso(day);
    test.results.set({property, value, {}, "", wheat_nitrogen_factor});
    return test;
}

} // namespace

TEST_CASE("A plan is known by its name, and without one nothing is due") {
    for (const auto plan :
         {TestingPlan::none, TestingPlan::every_lot, TestingPlan::switching, TestingPlan::skip_lot})
        CHECK(testing_plan_named(name_of(plan)) == plan);
    CHECK_FALSE(testing_plan_named("now and then"));
    CHECK(own_test_due({}, "Weir Mill", "W1", lots("xx"), false).samples == 0);
    CHECK(source_of(TestingPlan::switching) == "ISO 2859-1, from memory");
    CHECK(source_of(TestingPlan::every_lot).empty());
}

TEST_CASE("A plant that tests every lot is asked for each, until it has tested it") {
    CHECK(words(every, "AAAA") == "Test this lot: the plant tests every lot");
    CHECK(words(every, "AAAA", "W1", 1) == "Tested as the plan asks: the plant tests every lot");
}

TEST_CASE("By the switching rules two lots that were out ask for two samples of the next, and are named") {
    CHECK(words(switching, "") == "Test this lot: normal: every lot");
    CHECK(words(switching, "AxAx") == "Test this lot, 2 samples: tightened since L4: L2, L4 were out");
    CHECK(words(switching, "AxAx", "W1", 1) ==
          "Test this lot, 2 samples (1 so far): tightened since L4: L2, L4 were out");
    CHECK_THAT(words(switching, "AxAx", "W1", 2), Contains("Tested as the plan asks"));
    CHECK(words(switching, "AxAxAAAAA") == "Test this lot: normal since L9: every lot");
    // Lots between that were not tested say nothing.
    CHECK_THAT(words(switching, "Ax-A--x-"), Contains("tightened since L7: L2, L7 were out"));
}

TEST_CASE("After fifteen lots inside one in four is drawn, and one that is not says how many were skipped") {
    const std::string reduced(15, 'A');
    CHECK(words(switching, reduced + "--", number_that_is(true)) ==
          "Test this lot: reduced since L15: one lot in 4 is drawn, and this one was");
    CHECK(words(switching, reduced + "---", number_that_is(false)) ==
          "No own test due: reduced since L15: one lot in 4 is drawn, and this one was not; 3 skipped since "
          "L15");
    CHECK(own_test_due(switching, "Weir Mill", "", lots(reduced + "--"), false).why ==
          "reduced since L15: one lot in 4 is drawn; 2 skipped since L15"); // of whichever comes next
    CHECK_THAT(words(switching, reduced, number_that_is(false), 1),
               Contains("Tested, though no own test was due"));
    CHECK_THAT(words(switching, reduced + "--x", number_that_is(false)),
               Contains("Test this lot: normal since L18: every lot, as it was out"));
}

TEST_CASE("Five lots out while tightened stop sampling until the mill has answered") {
    CHECK_THAT(words(switching, "xxxxxxx"),
               Contains("Test this lot, 2 samples: L3, L4, L5, L6, L7 were out while tightened") &&
                   Contains("until the mill has mended the cause"));
    CHECK_THAT(words(switching, "xxxxxxx|"), Contains("tightened since L7"));
    CHECK_THAT(words(switching, "xxxxxxx|--"), Contains("tightened since L7"));
    CHECK_THAT(words(switching, "xxxxxxx-|-AAAAA"), Contains("normal since L14"));
}

TEST_CASE("Lots are skipped only once ten in a row were inside, and not after one was out") {
    CHECK(words(skipping, "") == "Test this lot: lots are skipped once 10 in a row were inside, 0 so far");
    CHECK_THAT(words(skipping, "AAAAAAAAA", number_that_is(false)), Contains("9 so far"));
    CHECK_THAT(words(skipping, "AAAAAAAAAA", number_that_is(false)), Contains("No own test due"));
    CHECK_THAT(words(skipping, "AAAAAAAAAA", number_that_is(true)), Contains("Test this lot: one lot in 4"));
    CHECK_THAT(words(skipping, "AAAAAAAAAAxAA", number_that_is(false)),
               Contains("2 so far since L11 was out"));
}

TEST_CASE("About one lot in four is drawn, always the same, and in no rhythm a mill could learn") {
    int drawn = 0, rhythm = 0;
    for (int i = 0; i < 4000; ++i) {
        const auto code = fmt::format("W24-{:04}", i);
        drawn += is_drawn("Weir Mill", code, 4) ? 1 : 0;
        rhythm += is_drawn("Weir Mill", code, 4) && is_drawn("Weir Mill", fmt::format("W24-{:04}", i + 4), 4);
    }
    CHECK(drawn > 1000 - 110); // four standard deviations of a quarter of 4,000
    CHECK(drawn < 1000 + 110);
    CHECK(rhythm > 250 - 62);
    CHECK(rhythm < 250 + 62);
    CHECK(is_drawn("Weir Mill", "W1", 4) == is_drawn("Weir Mill", "W1", 4));
    CHECK(is_drawn("Weir Mill", "W1", 1));
    int same = 0;
    for (int i = 0; i < 400; ++i)
        same += is_drawn("Weir Mill", fmt::format("W{}", i), 2) ==
                is_drawn("Ridge Mill", fmt::format("W{}", i), 2);
    CHECK(same < 300);
}

TEST_CASE("A lot is judged by the plant's tests of it as it came, not by what its aging did later") {
    const Specification windows{{Property::falling_number, 250, {}, ""}, {Property::stability, 8, {}, ""}};
    const Day came = day_from_iso("2026-11-01");
    const auto judged = [&](std::vector<Retest> tests) {
        return is_inside_by_own_tests(tests, windows, came);
    };
    CHECK_FALSE(judged({}));
    CHECK(judged({retest("2026-11-02", Property::falling_number, 300)}) == true);
    CHECK(judged({retest("2026-11-02", Property::falling_number, 300),
                  retest("2026-11-15", Property::stability, 7)}) == false);
    CHECK(judged({retest("2026-11-02", Property::falling_number, 300),
                  retest("2026-11-16", Property::stability, 7)}) == true);
    CHECK_FALSE(judged({retest("2026-11-16", Property::falling_number, 200)}));
    CHECK_FALSE(judged({retest("2026-11-02", Property::sedimentation, 40)})); // nobody asks for it
    auto withdrawn = retest("2026-11-02", Property::falling_number, 200);
    withdrawn.is_withdrawn = true;
    CHECK_FALSE(judged({withdrawn}));
}
