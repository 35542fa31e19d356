// The plant's own results against the certificate, by r and R; and what aging says beside it.
#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/retests.h"
#include "app/acts/test_precision.h"
#include "app/book/setup.h"
#include "app/models/lots.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using Stands = ComparedResult::Verdict;

namespace {

TestPrecisionDraft limits(const char* property, const char* R) {
    TestPrecisionDraft draft;
    draft.property = property;
    draft.R = R;
    draft.source = "ring test 4";
    return draft;
}

struct Laboratory {
    SmallPlant plant;
    LotId lot;

    explicit Laboratory(const char* milled_on = "2026-11-20") {
        auto draft = plant.draft("W24-118");
        draft.milled_on = milled_on;
        draft.delivered_on = "2026-11-22";
        draft.figure(Property::stability) = {Property::stability, "10", "", "ICC 115/1", ""};
        draft.figure(Property::extensibility) = {Property::extensibility, "160", "", "ICC 114/1", ""};
        plant.app().handle(TakeIn{{draft}});
        REQUIRE(plant.was_done());
        lot = plant.lot("W24-118");
    }
    void done(const Intent& intent) { plant.done(intent); }
    void undo() {
        for (const auto& act : Intents(plant.app().notice().undoing))
            done(act);
    }
    void tests(Property property, const char* value, const char* method = "",
               const char* day = "2026-11-24") {
        RetestDraft retest;
        retest.taken_on = day;
        retest.figure(property) = {property, value, traits(property).has_basis ? "14 % moisture" : "", method,
                                   ""};
        done(LogRetest{lot, retest});
    }
    const LotSheet& sheet() {
        plant.app().handle(OpenLot{lot});
        REQUIRE(plant.app().lots().opened);
        return *plant.app().lots().opened;
    }
    /// The newest of the property.
    AgreementRow row(Property property) {
        for (const auto& one : sheet().agreements)
            if (one.property == property)
                return one;
        throw std::runtime_error("no such result");
    }
};

} // namespace

TEST_CASE("Without an R of the plant's or a published one nothing is said of contradiction") {
    Laboratory at;
    CHECK(at.sheet().agreements.empty());
    at.tests(Property::protein, "14.9", "Dumas");
    CHECK(at.row(Property::protein).verdict == Stands::not_said);
    CHECK(at.row(Property::protein).words == "no published R at hand for protein by Dumas");
    CHECK_THAT(at.sheet().verdict.reasons, !Contains("contradicts"));
}

TEST_CASE("The plant enters its R with the source: from then on results agree or contradict") {
    Laboratory at;
    at.tests(Property::protein, "12.9");
    at.done(SetTestPrecision{0, limits("protein", "0.5")});
    CHECK(at.plant.said() == "Test precision, Protein: R 0.5 %, ring test 4");
    auto row = at.row(Property::protein);
    CHECK(row.verdict == Stands::agrees);
    CHECK(row.difference == Approx(0.4));
    CHECK_THAT(row.words, Contains("agrees: differs 0.4 %, up to 0.5 % is chance (R, ring test 4, entered by "
                                   "Tomas, 2026-11-25)"));
    at.tests(Property::protein, "13.4");
    CHECK(at.row(Property::protein).verdict == Stands::contradicts);
    CHECK(at.row(Property::protein).aging.empty()); // protein does not age
    CHECK_THAT(at.sheet().verdict.reasons,
               Contains("Our own protein of Tue 24 Nov contradicts the certificate."));
    CHECK(at.sheet().agreements.size() == 2); // the older one stays, behind
    CHECK(at.sheet().agreements.back().verdict == Stands::agrees);
}

TEST_CASE("A row is changed, dropped, undone and refused where it stands twice or somebody wrote meanwhile") {
    Laboratory at;
    at.tests(Property::protein, "13.1");
    at.done(SetTestPrecision{0, limits("protein", "0.5")});
    const auto line = at.plant.app().settings().precision.front();
    REQUIRE(line.row != 0);
    CHECK(line.limits == "R 0.5 %");
    CHECK_THAT(line.standing, Contains("entered by Tomas"));
    at.plant.app().handle(SetTestPrecision{0, limits("Protein", "0.8")});
    CHECK_THAT(at.plant.refusals(), Contains("Protein is in the list already"));
    at.done(SetTestPrecision{line.row, limits("protein", "0.8")});
    CHECK(at.row(Property::protein).verdict == Stands::agrees);
    at.undo();
    CHECK(at.row(Property::protein).verdict == Stands::contradicts);
    at.done(DropTestPrecision{line.row});
    CHECK(at.row(Property::protein).verdict == Stands::not_said);
    const auto undoing = at.plant.app().notice().undoing;
    at.undo();
    CHECK(at.row(Property::protein).verdict == Stands::contradicts);
    at.plant.app().handle(undoing.front());
    CHECK_THAT(at.plant.refusals(), Contains("was changed meanwhile"));
    at.plant.app().handle(SetTestPrecision{0, limits("protein", "")});
    CHECK_THAT(at.plant.refusals(), Contains("R: is empty"));
    at.plant.app().handle(DropTestPrecision{99});
    CHECK(at.plant.was_refused());
}

TEST_CASE("A row that another station enters holds here at the next look") {
    Laboratory at;
    at.tests(Property::protein, "13.4");
    App office({at.plant.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    office.handle(SetTestPrecision{0, limits("protein", "0.5")});
    REQUIRE(office.notice().kind == Notice::Kind::done);
    at.plant.app().poll();
    CHECK(at.row(Property::protein).verdict == Stands::contradicts);
    CHECK_THAT(at.plant.app().settings().precision.front().changed, Contains("Ines"));
}

TEST_CASE("Of stability nothing is said, for it does not repeat; its rule of aging stands beside that") {
    Laboratory at;
    at.tests(Property::stability, "6", "ICC 115/1");
    const auto row = at.row(Property::stability);
    CHECK(row.verdict == Stands::not_said);
    CHECK_THAT(row.words, Contains("does not repeat"));
    CHECK_THAT(row.aging, Contains("flour ages") && Contains("for the estimate of its aging: counts"));
}

TEST_CASE(
    "A difference that aging explains is named as such and not as the mill's error; no figure changes") {
    // Extensibility is taken to fall by 5 %, give or take 5, while flour matures (the literature table).
    Laboratory old("2026-06-01");
    old.done(SetTestPrecision{0, limits("extensibility", "5")});
    old.tests(Property::extensibility, "142", "ICC 114/1");
    const auto aged = old.row(Property::extensibility);
    CHECK(aged.verdict == Stands::contradicts);
    CHECK_THAT(aged.words, Contains("contradicts: differs 18 mm, only up to 5 mm is chance"));
    CHECK(aged.aging_explains);
    CHECK_THAT(aged.aging, Contains("it is not the mill's error") && Contains("of -18 mm"));
    CHECK_THAT(old.sheet().verdict.reasons, !Contains("contradicts the certificate"));

    Laboratory fresh("2026-11-22");
    fresh.done(SetTestPrecision{0, limits("extensibility", "5")});
    fresh.tests(Property::extensibility, "142", "ICC 114/1");
    const auto young = fresh.row(Property::extensibility);
    CHECK(young.words == aged.words); // by r and R it is the same
    CHECK_FALSE(young.aging_explains);
    CHECK_THAT(fresh.sheet().verdict.reasons, Contains("contradicts the certificate"));

    Laboratory longer("2026-06-01"); // aging makes it shorter, not longer
    longer.done(SetTestPrecision{0, limits("extensibility", "5")});
    longer.tests(Property::extensibility, "200", "ICC 114/1");
    CHECK_FALSE(longer.row(Property::extensibility).aging_explains);
}

TEST_CASE("The rule of three standard errors is told beside the verdict, whatever that is") {
    Laboratory at("2026-06-01");
    at.done(SetTestPrecision{0, limits("extensibility", "200")});
    at.tests(Property::extensibility, "400", "ICC 114/1");
    const auto row = at.row(Property::extensibility);
    CHECK(row.verdict == Stands::contradicts);
    at.tests(Property::extensibility, "330", "ICC 114/1");
    const auto agrees = at.row(Property::extensibility);
    CHECK(agrees.verdict == Stands::agrees);
    CHECK_THAT(agrees.aging, Contains("standard errors from what the others predict"));
    const auto all = at.sheet().agreements;
    CHECK(std::any_of(all.begin(), all.end(), [](const AgreementRow& one) {
        return one.aging.find("over 3: check it") != std::string::npos;
    }));
}

TEST_CASE("Moisture that moved in its place is no word against the mill; on the day it came it is") {
    Laboratory at;
    at.tests(Property::moisture, "12.9", "", "2026-11-24");
    auto row = at.row(Property::moisture);
    CHECK(row.verdict == Stands::contradicts);
    CHECK(row.aging_explains);
    CHECK_THAT(row.aging, Contains("flour draws and loses moisture where it lies: 2 days after it came"));
    Laboratory other;
    other.tests(Property::moisture, "12.9", "", "2026-11-22");
    CHECK(other.row(Property::moisture).verdict == Stands::contradicts);
    CHECK_FALSE(other.row(Property::moisture).aging_explains);
}
