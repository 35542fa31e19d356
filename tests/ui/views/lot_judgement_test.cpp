// Quality's word on a lot, by mouse and keyboard: concessions, flour back to the mill, retests beside the
// certificate.
#include "app/acts/lots.h"
#include "app/acts/mill_returns.h"
#include "app/acts/test_precision.h"
#include "app/models/lot_verdict.h"
#include "app/models/settings.h"
#include "support/catch.h"
#include "support/iso.h"
#include "ui/views/whole_window.h"

#include <algorithm>

using namespace mellowbin;
using Catch::Matchers::Contains;
using test::WholeWindow;
using views::Screen;

namespace {

/// A lot that fails its falling number, opened.
struct OpenedLot : WholeWindow {
    OpenedLot() : WholeWindow(Screen::lots) {
        lots.opened = test::a_sheet();
        lots.opened->failing = {"Falling number 262 s, below 280 to 350 s"};
        lots.opened->products = {"Pan bread", "Bun"};
        screen.settle();
    }
    void stands(LotState state, app::LotStanding standing = {}) {
        auto& sheet = *lots.opened;
        sheet.row.state = state;
        sheet.row.standing = standing;
        for (auto& row : lots.rows)
            if (row.id == sheet.row.id) {
                row.state = state;
                row.standing = standing;
            }
        ++lots.made;
        sheet.verdict = app::lot_verdict(sheet, test::plan_today());
        screen.settle();
    }
    void concede(const char* until, bool is_over) {
        lots.opened->concession = app::ConcessionShown{
            "Falling number 262 s", "Ines",  "Pan bread",
            day_from_iso(until),    is_over, {"Falling number 262 s", "Ines", until, {"Pan bread"}, false}};
        stands(LotState::released,
               {is_over ? "concession ended 20 Nov" : "concession until 27 Nov", is_over, {}});
    }
    bool stands_in(std::string_view words) {
        const auto& notes = screen.probe().notes();
        return std::any_of(notes.begin(), notes.end(), [&](const auto& note) {
            return note.label.find(words) != std::string::npos || note.value.find(words) != std::string::npos;
        });
    }
};

} // namespace

TEST_CASE("The release of a lot that fails shows what fails, and asks for a reason or a concession") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Release lot");
    CHECK(window.stands_in("It is out of specification: release it with a reason, or with a concession."));
    CHECK(screen.offers("Reason"));
    screen.type("Reason", "the blend makes up for it");
    screen.click("Release lot");
    CHECK(window.last<app::ReleaseLot>().reason == "the blend makes up for it");
    CHECK_FALSE(window.last<app::ReleaseLot>().concession);
}

TEST_CASE("A lot inside its specification is asked for no reason") {
    OpenedLot window;
    window.lots.opened->failing.clear();
    window.screen.settle();
    window.screen.click("Release lot");
    CHECK_FALSE(window.screen.offers("Reason"));
}

TEST_CASE("A concession begins with what fails, and takes who, until when and for which products") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Release lot");
    screen.click("With a concession");
    CHECK(screen.value_of("Conceded") == "Falling number 262 s, below 280 to 350 s");
    CHECK_FALSE(screen.offers("Reason"));
    screen.type("Conceded by", "Grace");
    screen.type("Until", "2026-12-04");
    screen.click("Bun");
    screen.click("Release lot");
    const auto& act = window.last<app::ReleaseLot>();
    REQUIRE(act.concession);
    CHECK(*act.concession ==
          ConcessionDraft{"Falling number 262 s, below 280 to 350 s", "Grace", "2026-12-04", {"Bun"}, false});
    window.tell(test::refused(1, {{"Until", "2026-12-04 was read, which is over", "Enter a later day"},
                                  {"For products", "none was chosen", "Choose those it may go into"}}));
    CHECK(window.stands_in("2026-12-04 was read, which is over. Enter a later day"));
    CHECK(window.stands_in("none was chosen"));
    CHECK(screen.value_of("Conceded by") == "Grace"); // as typed
    CHECK(screen.is_chosen("Bun"));
}

TEST_CASE("For all products is said by itself, and takes the others out") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Release lot");
    screen.click("With a concession");
    screen.click("Bun");
    screen.click("All products");
    CHECK_FALSE(screen.is_enabled("Bun"));
    screen.type("Until", "2026-12-04");
    screen.click("Release lot");
    CHECK(window.last<app::ReleaseLot>().concession->for_all);
    CHECK(window.last<app::ReleaseLot>().concession->products.empty());
}

TEST_CASE(
    "A concession that is over is said in the list and on the sheet, and to judge it anew comes first") {
    OpenedLot window;
    window.concede("2026-11-20", true);
    auto& screen = window.screen;
    CHECK(screen.says("Concession ended on Fri 20 Nov"));
    CHECK_THAT(screen.value_of("W26-131"), Contains("concession ended 20 Nov"));
    screen.click("Judge the concession anew");
    CHECK(screen.value_of("Until") == "2026-11-20");
    CHECK(screen.is_chosen("Pan bread"));
    screen.type("Until", "2026-12-04");
    screen.click("Judge anew");
    CHECK(window.last<app::ConcedeLot>().lot == LotId{6});
    CHECK(window.last<app::ConcedeLot>().concession.until == "2026-12-04");
    window.tell(test::done(1, "Lot W26-131: concession"));
    screen.click("End the concession");
    screen.type("Reason", "retest is sound");
    screen.press(ui::Key::enter);
    CHECK(window.last<app::EndConcession>().reason == "retest is sound");
}

TEST_CASE("A lot without a concession has none to end") {
    OpenedLot window;
    window.stands(LotState::released);
    CHECK_FALSE(window.screen.offers("End the concession"));
    window.concede("2026-11-27", false);
    CHECK(window.screen.says("Released with a concession until Fri 27 Nov"));
    CHECK(window.screen.offers("End the concession"));
}

TEST_CASE("Flour of a lot that is not released goes back to the mill: all of it, or from one place") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Return to the mill");
    CHECK(screen.says("Send lot W26-131 back to the mill?"));
    screen.type("Reason", "wet at one corner");
    screen.type("Paper", "RN 12");
    screen.click("Send back");
    const auto whole = window.last<app::ReturnToMill>();
    CHECK_FALSE(whole.place);
    CHECK(whole.kg.empty());
    CHECK(whole.reason == "wet at one corner");
    CHECK(whole.document == "RN 12");
    window.tell(test::done(1, "9600 kg back to the mill"));
    screen.click("Places");
    screen.click("Silo 1/Back to the mill");
    screen.type("Weight", "250,5");
    screen.type("Reason", "wet");
    screen.click("Send back");
    CHECK(window.last<app::ReturnToMill>().place == PlaceId{4});
    CHECK(window.last<app::ReturnToMill>().kg == "250,5");
    window.tell(test::done(2, "250.5 kg back to the mill"));
    window.stands(LotState::released);
    CHECK_FALSE(screen.offers("Return to the mill"));
}

TEST_CASE("A lot of which nothing is left is called returned to the mill") {
    OpenedLot window;
    window.lots.opened->places.clear();
    window.lots.opened->row.stock_kg = 0;
    window.stands(LotState::rejected, {"returned to the mill", false, test::plan_today()});
    CHECK(window.screen.says("Returned to the mill on Wed 25 Nov"));
    CHECK_THAT(window.screen.value_of("W26-131"), Contains("returned to the mill"));
    CHECK_FALSE(window.screen.offers("Return to the mill"));
}

TEST_CASE("The newest retest stands beside the certificate with its verdict, and aging's word beside that") {
    OpenedLot window;
    using Stands = ComparedResult::Verdict;
    window.lots.opened->agreements = {
        {RetestId{4}, test::plan_today() - Days{1}, Property::protein, Stands::contradicts, 1.4, 0.5,
         "contradicts: differs 1.4 %, only up to 0.5 % is chance (R, ring test 4, from memory)", "", false},
        {RetestId{4}, test::plan_today() - Days{1}, Property::extensibility, Stands::contradicts, -18.0, 5.0,
         "contradicts: differs 18 mm, only up to 5 mm is chance (R, ring test 5, read)",
         "flour ages: it is not the mill's error", true},
        {RetestId{3}, test::plan_today() - Days{8}, Property::protein, Stands::agrees, 0.1, 0.5,
         "agrees: differs 0.1 %", "", false}};
    window.screen.settle();
    CHECK(window.stands_in("Retests against the certificate"));
    CHECK(window.stands_in(
        "Protein, retest of 2026-11-24, against the certificate: contradicts: differs 1.4 %"));
    CHECK(window.stands_in("Beside it: flour ages: it is not the mill's error"));
    CHECK_FALSE(window.stands_in("agrees: differs 0.1 %")); // the older one
    window.screen.click("Show every result");
    CHECK(window.stands_in("agrees: differs 0.1 %"));
    window.screen.click("Release lot");
    CHECK(window.stands_in("contradicts: differs 18 mm"));
}

TEST_CASE("Settings show each r and R with its standing, and the plant enters its own with the source") {
    WholeWindow window(Screen::settings);
    window.settings.precision = {
        {7,
         "Protein",
         "ISO 20483",
         "R 0.5 %",
         "",
         "ISO 20483, table B.1",
         "entered by Ines, 2026-11-02",
         {"protein", "ISO 20483", "", "0.5", "absolute", "", "", "", "", "ISO 20483, table B.1"},
         ""},
        {0,
         "Ash",
         "ISO 2171",
         "r 0.02 %",
         "up to 1",
         "ISO 2171:1993",
         "from memory",
         {"ash", "ISO 2171", "0.02", "", "absolute", "", "1", "", "", "ISO 2171:1993"},
         ""}};
    auto& screen = window.screen;
    screen.click("Test precision");
    CHECK_THAT(screen.value_of("Ash"), Contains("from memory"));
    CHECK_THAT(screen.value_of("Protein"), Contains("your own"));
    screen.click("Ash");
    CHECK(screen.says("ISO 2171:1993"));
    screen.click("Enter our own");
    CHECK(screen.value_of("r") == "0.02");
    screen.type("R", "0,05");
    screen.type("Where it was read/Source", "ISO 2171:2023, annex A");
    screen.click("Keep the row");
    CHECK(window.last<app::SetTestPrecision>().row == 0); // one more: the published one stays
    CHECK(window.last<app::SetTestPrecision>().as.R == "0,05");
    CHECK(window.last<app::SetTestPrecision>().as.property == "ash");
    window.tell(test::refused(1, {{"R", "0.05 was read", "Check it"}}));
    CHECK(screen.find("0.05 was read. Check it").kind == ui::Kind::refusal);
    screen.click("Close form");
    screen.click("Protein");
    screen.click("Change this row");
    screen.type("R", "0.6");
    screen.click("Keep the row");
    CHECK(window.last<app::SetTestPrecision>().row == 7);
    ++window.settings.precision_changed;
    window.tell(test::done(2, "Test precision"));
    screen.click("Drop this row");
    CHECK(window.last<app::DropTestPrecision>().row == 7);
}
