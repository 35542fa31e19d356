#include "app/acts/notice.h"
#include "app/acts/print_plan.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/models/plan.h"
#include "app/models/plan_sheet.h"
#include "app/models/planned_run.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/iso.h"
#include "support/pdf_tools.h"
#include "support/sheet_words.h"

#include <fstream>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using tests::SmallPlant;
namespace fs = std::filesystem;

namespace {

/// Two days on one line: a run with a locked lot and flour to come, and one that gets half of what it needs.
PlanModel two_days() {
    PlanModel plan;
    plan.from = plan.today = day_from_iso("2026-11-25");
    plan.days = 7;
    plan.lines = {"Line 1"};
    PlannedRun bread;
    bread.code = "R-1";
    bread.product = "<b>&\"";
    bread.day = plan.from;
    bread.sequence = 1;
    bread.need_kg = 600;
    PlannedLot there;
    there.lot = LotId{1};
    there.code = "W24-118";
    there.kg = 450.5;
    there.is_locked = true;
    there.maturity = 0.9;
    PlannedLot to_come;
    to_come.delivery = ExpectedId{3};
    to_come.code = "E-3";
    to_come.kg = 149.5;
    to_come.maturity = 0.9;
    bread.lots = {there, to_come};
    bread.maturity = 0.71;
    bread.maturity_target = 0.9;
    PlannedRun loaf = bread;
    loaf.product = "Plain loaf";
    loaf.day = plan.from + Days{1};
    loaf.short_kg = 300;
    loaf.lots.pop_back();
    loaf.windows_words = "protein 0.2 % below";
    plan.runs = {loaf, bread}; // not in the order of the days
    return plan;
}

std::string sheet(const PlanModel& plan) {
    return tests::words_of(plan_sheet(plan, {"Mill & Oven", "Wed 25 Nov 2026, 04:10", Instant{}}));
}

std::size_t count(const std::string& text, std::string_view part) {
    std::size_t found = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
        ++found;
    return found;
}

fs::path folder_of(const SmallPlant& plant) { return fs::path(plant.book_path()).parent_path(); }

} // namespace

TEST_CASE("A printed plan says how long a dough ferments and why, where that is longer than usual") {
    auto plan = two_days();
    CHECK(count(sheet(plan), "fermented") == 0);
    plan.runs[0].fermentation_words = "70 min: 45 and 25 longer for strength";
    CHECK(count(sheet(plan), "; fermented 70 min: 45 and 25 longer for strength") == 1);
}

TEST_CASE("A printed plan shows the words of the book as they are, whatever signs are in them") {
    CHECK_THAT(sheet(two_days()), Contains("|<b>&\"/R-1|") && StartsWith("Mill & Oven: Plan, Wed 25 Nov"));
}

TEST_CASE("A printed plan says of each run which dose is withheld, and above all what no plan mends") {
    auto plan = two_days();
    plan.withheld = {"Calcium propionate is withheld: EU <sliced> (1 run: R-1)"};
    plan.runs[0].keeping_words = "Calcium propionate: EU, 1000 of 3000";
    plan.runs[1].dose_withheld = "Ascorbic acid is withheld: not confirmed";
    plan.runs[1].keeping_withheld = true;
    plan.runs[1].keeping_words = "Calcium propionate is withheld: EU <sliced>";
    const auto page = sheet(plan);
    CHECK_THAT(page, Contains("# Withheld by law, which no plan mends\n"
                              "- Calcium propionate is withheld: EU <sliced> (1 run: R-1)\n"));
    CHECK_THAT(page, Contains("|none/Calcium propionate: EU, 1000 of 3000|") &&
                         Contains("|*Ascorbic acid is withheld: not confirmed*/*Calcium propionate is "
                                  "withheld: EU <sliced>*|"));
}

TEST_CASE("A printed plan has a table for each day in order, with lots, strength and windows") {
    const auto page = sheet(two_days());
    CHECK(count(page, "=Line=Sequence=") == 2);
    CHECK(page.find("# Wed 25 Nov\n") < page.find("# Thu 26 Nov\n"));
    CHECK(page.find("<b>&") < page.find("Plain loaf"));
    CHECK_THAT(page, Contains("450.5 kg W24-118 (locked)/*149.5 kg E-3 (still to come)*") &&
                         Contains("maturity 71 % of 90 % asked for") && Contains("protein 0.2 % below") &&
                         Contains("2026-11-25 to 2026-12-01, made Wed 25 Nov 2026, 04:10"));
}

TEST_CASE("A printed plan is loud where a run is short, and only there") {
    auto plan = two_days();
    plan.shortages = {"Plain loaf: 300 kg short; order by < Thu"};
    plan.orders = {{"Strong white", 300, {}, "1 run from Thu 26 Nov", "Too late."}};
    const auto page = sheet(plan);
    CHECK(count(page, "*SHORT 300 kg*") == 1);
    CHECK(count(page, "SHORT") == 1);
    CHECK_THAT(page, Contains("300 kg short; order by < Thu") &&
                         Contains("300 kg Strong white for 1 run from Thu 26 Nov; too late"));
}

TEST_CASE("A printed plan says whether it is adopted, proposed or only supposed") {
    auto plan = two_days();
    CHECK_THAT(sheet(plan), Contains("Adopted plan") && !Contains("NOT ADOPTED"));
    plan.replan_words = "Lot W24-118 was held.";
    CHECK_THAT(sheet(plan), Contains("no longer holds. Lot W24-118 was held."));
    plan.standing = PlanModel::Standing::proposed;
    CHECK_THAT(sheet(plan), Contains("!! PROPOSED: NOT ADOPTED\n") && !Contains("Adopted plan"));
    plan.is_supposed = true;
    plan.suppositions = {"No oxidant in Canada"};
    CHECK_THAT(sheet(plan), Contains("WHAT IF") && Contains("- No oxidant in Canada\n"));
}

TEST_CASE("A printed plan that doses an oxidant says that law and staff come first") {
    auto plan = two_days();
    CHECK_THAT(sheet(plan), !Contains("local law"));
    plan.runs[0].oxidant = "Ascorbic acid";
    plan.runs[0].oxidant_ppm = 42;
    plan.runs[0].oxidant_words = "Ascorbic acid 42.00 mg/kg flour";
    CHECK_THAT(sheet(plan), Contains("Ascorbic acid 42.00 mg/kg") &&
                                Contains("local law and qualified staff come before this plan"));
}

TEST_CASE("Printing writes the plan beside the book, over the one printed before, and changes no book") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-27", "2");
    plant.plan_week();
    const auto lines = plant.app().settings().journal.size();
    const auto file = folder_of(plant) / "plan-2026-11-25.pdf";
    for (int time = 0; time < 2; ++time) {
        plant.app().handle(PrintPlan{});
        INFO(plant.said());
        REQUIRE(plant.was_done());
        CHECK_THAT(plant.said(), Contains(file.string()));
    }
    const auto page = testing::file_bytes(file);
    CHECK(print::is_own_paper(page));
    const auto text = tests::text_of(page);
    CHECK_THAT(text, Contains("Pan bread") && Contains(" kg A") && Contains("page 1 of 1"));
    CHECK_FALSE(fs::exists(file.string() + ".new"));
    CHECK(plant.app().settings().journal.size() == lines);
}

TEST_CASE("A plan is not printed into a folder that is not there, nor over a file of another kind") {
    SmallPlant plant;
    const auto file = folder_of(plant) / "none" / "plan.pdf";
    plant.app().handle(PrintPlan{file.string()});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("File") && Contains("there is no folder"));
    CHECK_FALSE(fs::exists(file));

    plant.app().handle(PrintPlan{plant.book_path()});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("is no printed paper"));
    CHECK_THAT(testing::file_bytes(plant.book_path()), StartsWith("SQLite"));

    plant.app().handle(PrintPlan{folder_of(plant).string()});
    CHECK_THAT(plant.refusals(), Contains("it is a folder"));
}

TEST_CASE("A book in memory has no folder, so the file to print into must be named") {
    App app(AppSetup{":memory:", "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    app.handle(PrintPlan{});
    REQUIRE(app.notice().kind == Notice::Kind::refused);
    CHECK(app.notice().refusals.at(0).field == "File");
}
