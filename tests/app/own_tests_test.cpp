#include "app/acts/looking.h"
#include "app/acts/settings.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/own_tests.h"
#include "two_mills.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::TwoMills;

namespace {

struct Planned : TwoMills {
    explicit Planned(const char* plan) {
        if (*plan)
            done(ChangeSetting{"mill_testing", plan});
    }
    /// A lot that came and was tested the day after.
    LotId known(const std::string& code, const std::string& day, bool is_inside) {
        const auto lot = came(code, day, "12", "300");
        tested(lot, iso(day_from_iso(day) + Days{1}), is_inside ? "300" : "200");
        return lot;
    }
    OwnTestAdvice of(LotId lot) {
        app().handle(OpenLot{lot});
        REQUIRE(app().lots().opened);
        return app().lots().opened->own_test;
    }
    OwnTestAdvice of_next(const std::string& code = "W24-130", const std::string& mill_name = "Mill") {
        app().handle(AskWhetherToTest{mill_name, "Strong white", code});
        return app().intake().own_test;
    }
};

} // namespace

TEST_CASE("Without a plan of own tests nothing is said of a lot") {
    Planned at("");
    const auto lot = at.came("W24-118", "2026-11-20", "12", "300");
    CHECK(at.of(lot).words.empty());
    CHECK(at.of_next().words.empty());
    CHECK_FALSE(at.app().intake().has_test_plan);
    CHECK(at.record().plan == "no plan");
}

TEST_CASE("A plant that tests every lot is told so of each new lot, until it is tested") {
    Planned at("every lot");
    CHECK(at.app().intake().has_test_plan);
    const auto lot = at.came("W24-118", "2026-11-20", "12", "300");
    CHECK(at.of(lot).words == "Test this lot: the plant tests every lot");
    CHECK(at.of(lot).is_due);
    at.tested(lot, "2026-11-21", "300");
    CHECK_THAT(at.of(lot).words, Contains("Tested as the plan asks"));
    CHECK_FALSE(at.of(lot).is_due);
    at.done(ReleaseLot{lot, ""});
    CHECK(at.of(lot).words.empty()); // it is not new any more
}

TEST_CASE(
    "By the switching rules two lots that were out ask for two samples of the next, by mill and flour") {
    Planned at("switching rules");
    at.known("W24-117", "2026-11-01", true);
    at.known("W24-118", "2026-11-03", false);
    at.known("W24-119", "2026-11-05", true);
    at.known("W24-120", "2026-11-07", false);
    const auto next = at.came("W24-121", "2026-11-09", "12", "300");
    CHECK(at.of(next).words ==
          "Test this lot, 2 samples: tightened since W24-120: W24-118, W24-120 were out");
    CHECK(at.of(next).source == "ISO 2859-1, from memory");
    CHECK(at.of_next().words == at.of(next).words);
    CHECK_THAT(at.of_next("R1", "Ridge Mill").words, Contains("normal: every lot"));
    CHECK_THAT(at.record().flours.at(0).testing, Contains("tightened since W24-120"));
    CHECK(at.record().plan_source == "ISO 2859-1, from memory");
    // A lot between is judged by what came before it.
    CHECK_THAT(at.of(at.lot("W24-119")).words, Contains("normal: every lot"));
}

TEST_CASE("Advice neither holds a lot back nor lifts a hold") {
    Planned at("switching rules");
    at.known("W24-118", "2026-11-03", false);
    at.known("W24-119", "2026-11-05", false);
    const auto next = at.came("W24-121", "2026-11-09", "12", "300");
    CHECK(at.of(next).is_due);
    at.done(ReleaseLot{next, ""});
    const auto held = at.came("W24-122", "2026-11-10", "12", "300");
    at.done(HoldLot{held, "insects"});
    at.tested(held, "2026-11-11", "300");
    at.tested(held, "2026-11-11", "310");
    CHECK_THAT(at.of(held).words, Contains("Tested as the plan asks"));
    CHECK(at.row("W24-122").state == LotState::held);
}

TEST_CASE("A complaint that the mill answered lets sampling go on after it was stopped") {
    Planned at("switching rules");
    for (int i = 0; i < 7; ++i)
        at.known("X" + std::to_string(i), "2026-11-0" + std::to_string(i + 1), false);
    CHECK_THAT(at.of_next().words, Contains("X2, X3, X4, X5, X6 were out while tightened"));
    at.done(LogComplaint{at.mill(), {"X6", "Falling number", "", "sprouted", "", "2026-11-08"}});
    CHECK_THAT(at.of_next().words, Contains("until the mill has mended the cause"));
    at.record();
    at.done(
        AnswerComplaint{at.app().plant().mill_record->complaints.at(0).id, {"other wheat", "2026-11-10"}});
    CHECK_THAT(at.of_next().words, Contains("tightened since X6"));
}

TEST_CASE("Where one lot in so many is tested, the number of lots skipped is told") {
    Planned at("one lot in so many");
    at.done(ChangeSetting{"mill_testing_one_in", "3"});
    for (int i = 0; i < 10; ++i)
        at.known("X" + std::to_string(i), "2026-10-1" + std::to_string(i), true);
    at.came("U1", "2026-11-01", "12", "300");
    at.came("U2", "2026-11-02", "12", "300");
    int drawn = 0;
    for (int i = 0; i < 60; ++i) {
        const auto advice = at.of_next("N" + std::to_string(i));
        drawn += advice.is_due ? 1 : 0;
        if (advice.is_due)
            CHECK_THAT(advice.words, Contains("Test this lot: one lot in 3 is drawn, and this one was"));
        else
            CHECK_THAT(advice.words,
                       Contains("one lot in 3 is drawn, and this one was not; 2 skipped since X9"));
    }
    CHECK(drawn > 8);
    CHECK(drawn < 34);
    at.refused(ChangeSetting{"mill_testing_one_in", "1"});
    at.refused(ChangeSetting{"mill_testing", "sometimes"});
}

TEST_CASE(
    "What was asked on Intake is answered anew when another station tested a lot, and put away when asked") {
    Planned at("switching rules");
    at.known("W24-118", "2026-11-03", false);
    const auto open = at.came("W24-119", "2026-11-05", "12", "300");
    CHECK_THAT(at.of_next().words, Contains("normal"));
    App office({at.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    RetestDraft draft;
    draft.taken_on = "2026-11-06";
    draft.figures = {{Property::falling_number, "190", "", "", ""}};
    office.handle(LogRetest{open, draft});
    REQUIRE(office.notice().kind == Notice::Kind::done);
    at.app().poll();
    CHECK_THAT(at.app().intake().own_test.words, Contains("tightened since W24-119"));
    at.app().handle(AskWhetherToTest{});
    CHECK(at.app().intake().own_test.words.empty());
    at.app().handle(AskWhetherToTest{"Nobody", "Strong white", "X"});
    CHECK(at.app().intake().own_test.words.empty());
    CHECK(at.app().notice().kind != Notice::Kind::refused); // what is half typed is no fault
}

TEST_CASE(
    "Lots tested only when they had aged, and older than two years, say nothing of how to test the next") {
    Planned at("switching rules");
    const auto aged = at.came("W24-118", "2026-10-03", "12", "300");
    at.tested(aged, "2026-10-18", "200");
    at.known("W24-119", "2026-10-20", false);
    CHECK_THAT(at.of_next().words, Contains("normal"));
    at.known("W22-001", "2024-11-24", false);
    CHECK_THAT(at.of_next().words, Contains("normal"));
    at.known("W22-002", "2024-11-25", false);
    CHECK_THAT(at.of_next().words, Contains("tightened since W24-119"));
}
