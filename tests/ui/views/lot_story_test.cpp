#include "app/acts/looking.h"
#include "app/acts/retests.h"
#include "app/models/outlook.h"
#include "support/catch.h"
#include "ui/models/story.h"
#include "ui/views/whole_window.h"

#include <algorithm>

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

/// Readiness with lot W26-131 opened.
struct OpenedStory : WholeWindow {
    OpenedStory() : WholeWindow(Screen::readiness) {
        readiness.opened = test::a_story();
        screen.settle();
    }
    /// Also below what is in view.
    bool tells(std::string_view words) const {
        const auto& notes = screen.probe().notes();
        return std::any_of(notes.begin(), notes.end(), [&](const auto& note) {
            return note.label.find(words) != std::string::npos || note.value.find(words) != std::string::npos;
        });
    }
};

} // namespace

TEST_CASE("A lot opened on another screen has its story beside the bands, and is chosen among them") {
    OpenedStory o;
    CHECK(o.screen.says("Lot W26-131"));
    CHECK(o.screen.is_chosen("W26-131"));
    const auto& bands = o.screen.find("Bands/Readiness/Readiness").rect;
    CHECK(o.screen.find("Lot W26-131").rect.left >= bands.right);
}

TEST_CASE("The story says first what to do with the lot, and why") {
    OpenedStory o;
    CHECK(o.screen.says("○ wait"));
    CHECK(o.screen.says("It is mature today with a probability of 6 %"));
    o.readiness.opened->advice = app::Advice::use_first;
    o.readiness.opened->reasons = {"Its best days end on Wed 9 Dec.", "Pan bread wants it on Sat."};
    o.screen.settle();
    CHECK(o.screen.says("Use first"));
    CHECK(o.screen.says("Its best days end on Wed 9 Dec."));
    CHECK(o.screen.says("Pan bread wants it on Sat."));
}

TEST_CASE("The ready date is told at the confidence asked for and with its 80 % interval") {
    OpenedStory o;
    CHECK(o.screen.value_of("Ready on") == "Sat 12 Dec");
    CHECK(o.screen.says("80 % sure"));
    CHECK(o.screen.value_of("Ready") == "2026-12-07");
    CHECK(o.tells("between 2026-12-01 and 2026-12-16 in 80 of 100 cases"));
    CHECK(o.tells("a day beyond the studied time")); // the last day of being past its best
}

TEST_CASE("Alarms of the flour's keeping tell what stops from what needs a look") {
    OpenedStory o;
    CHECK(o.tells("Moisture reaches 15.2 %, above the limit of 15 %, on 3 Jan"));
    CHECK(o.tells("On 12 Dec the air of Bay 2 may wet cold bags: condensation"));
    CHECK(o.screen.value_of("Moisture now") == "14.1");
    CHECK(o.screen.value_of("Water activity now") == "0.67");
    CHECK_FALSE(o.tells("No alarm of moisture"));
    o.readiness.opened->alarms.clear();
    o.screen.settle();
    CHECK(o.tells("No alarm of moisture, water activity, condensation or fat acidity"));
}

TEST_CASE("The courses of a lot share their days, from its first to its last") {
    OpenedStory o;
    CHECK(o.screen.value_of("Maturity of W26-131").starts_with("25 Nov: "));
    CHECK(o.screen.value_of("Maturity of W26-131").find(" %") != std::string::npos);
    CHECK(o.screen.value_of("Temperature") == "25 Nov: 18.0 °C (16.0 – 20.0), assumed");
    CHECK(o.screen.value_of("Moisture of the flour") == "25 Nov: 14.0 %");
    std::vector<float> first_labels;
    for (const auto& note : o.screen.probe().notes())
        if (note.label == "7 Dec" && note.path.find("Story") != std::string::npos)
            first_labels.push_back(note.rect.left);
    REQUIRE(first_labels.size() == 5); // maturity, resistance, temperature, humidity, moisture
    for (const float left : first_labels)
        CHECK(left == first_labels.front());
}

TEST_CASE("The part of the storage that a logger measured is told apart in words") {
    OpenedStory o;
    CHECK(o.tells("A logger measured 87 % of its storage so far; 1 gap of 3 days is bridged."));
    CHECK(o.tells("measured: 3 Nov to 15 Nov, 19 Nov to 24 Nov"));
    CHECK(o.tells("assumed: 16 Nov to 18 Nov, 25 Nov to 24 Jan"));
}

TEST_CASE("One of several measured properties is chosen; its results stand on its course") {
    OpenedStory o;
    CHECK(o.tells("19 Nov: 352 EU, Bay 2"));
    CHECK(o.tells("24 Nov: 471 EU, Bay 2, asks for a check"));
    o.screen.click("Property/Glutathione, reduced");
    CHECK(o.tells("24 Nov: 41.5 nmol/g, Bay 2"));
    CHECK_FALSE(o.tells("19 Nov: 352 EU, Bay 2"));
    CHECK(o.tells("once two results of it can be compared"));
}

TEST_CASE("The story says how far the lot has matured as a percentage and in days, with its range") {
    OpenedStory o;
    CHECK(o.tells("mature 62 %, about 12 days at 20 °C (41 to 83 % in 80 of 100)"));
    CHECK(o.tells("maturity, %"));
    CHECK_FALSE(o.tells("maturity, 0 to 1"));
}

TEST_CASE("Every curve of the story is also a table") {
    OpenedStory o;
    auto& screen = o.screen;
    screen.click("Maturity, an estimate/Show as a table");
    CHECK(screen.value_of("Maturity by day, %") == "83 rows");
    screen.click("What was measured/Show as a table");
    CHECK(screen.value_of("2026-11-24") == "471");
    CHECK(o.tells("asks for a check"));
    screen.click("Storage climate/Show as a table");
    CHECK(o.tells("2026-11-03 | 15.4 | 17.4 | 20.4 | 60 | 14.2 | 100"));
    screen.click("Storage climate/Show the curve");
    CHECK(o.tells("temperature, low to high of the day"));
}

TEST_CASE("The chance of being mature stands beside each planned run") {
    OpenedStory o;
    CHECK(o.tells("Pan bread, Line 1: 1 200 kg"));
    CHECK(o.screen.value_of("On the days of its runs/11/Mature") == "14");
    CHECK(o.screen.value_of("On the days of its runs/12/Mature") == "78");
    CHECK(o.screen.value_of("On the days of its runs/12/Past its best") == "1");
    CHECK(o.tells("on Fri 11 Dec"));
}

TEST_CASE("What a retest would be worth and what another place would change are told") {
    OpenedStory o;
    CHECK(o.tells("narrows the ready date from 15 to about 9 days"));
    CHECK(o.tells("22.5 °C: ready 9 days sooner"));
    CHECK(o.screen.value_of("Silo 1") == "ready Thu 03 Dec");
    CHECK(o.screen.value_of("Silo 2") == "not ready within the studied time");
}

TEST_CASE("A result says whether it counts, why not, and whether it asks for a check") {
    OpenedStory o;
    CHECK(o.tells("Certificate of 2026-11-05"));
    CHECK(o.tells("set aside: one result of its kind cannot be compared"));
    CHECK(o.tells("counts, but check it: 4.2 standard errors above what the others predict"));
    o.readiness.opened->tests[2].standing.clear();
    o.screen.settle();
    CHECK(o.tells("counts, but check it"));
}

TEST_CASE("Every number of the estimate says where it comes from") {
    OpenedStory o;
    CHECK(o.screen.value_of("Maturing rate at 20 °C") == "0.082 per day");
    CHECK(o.tells("The plant's own bakes have not yet sharpened this estimate."));
}

TEST_CASE("A lot of which nothing is known says so in each part") {
    OpenedStory o;
    o.readiness.opened = test::a_bare_story();
    o.screen.settle();
    for (const auto* words : {"No property was measured yet", "Nothing is known of where it lay",
                              "No planned run draws this lot", "None yet. A retest now"})
        CHECK(o.tells(words));
    CHECK(o.screen.value_of("Ready") == "not within the studied time");
}

TEST_CASE("A retest is withdrawn after a question, with its reason, all its figures at once") {
    OpenedStory o;
    auto& screen = o.screen;
    screen.click("Results/2/Withdraw");
    CHECK(screen.says("Withdraw this retest?"));
    CHECK(screen.says("Extensograph resistance 471 EU"));
    CHECK(screen.says("Glutathione, reduced 41.5 nmol/g"));
    screen.type("Reason", "sample of another lot");
    screen.press(ui::Key::enter);
    CHECK(o.last<app::WithdrawRetest>().retest == RetestId{2});
    CHECK(o.last<app::WithdrawRetest>().reason == "sample of another lot");
    o.tell(test::refused(1, {{"Reason", "is too short", "Say why"}}));
    CHECK(screen.value_of("Reason") == "sample of another lot");
    CHECK(screen.find("is too short. Say why").kind == ui::Kind::refusal);
    screen.type("Reason", "the sample was of another lot");
    screen.press(ui::Key::enter);
    o.tell(test::done(2, "Retest withdrawn"));
    CHECK_FALSE(screen.says("Withdraw this retest?"));
}

TEST_CASE("Escape in the question withdraws nothing; a certificate offers no withdrawing") {
    OpenedStory o;
    o.did.clear();
    CHECK_FALSE(o.screen.offers("Results/0/Withdraw"));
    o.screen.click("Results/1/Withdraw");
    o.screen.press(ui::Key::escape);
    CHECK(o.did.empty());
}

TEST_CASE("A closed story is opened again by a click on its lot") {
    OpenedStory o;
    o.screen.click("Close story");
    CHECK_FALSE(o.screen.says("Lot W26-131"));
    o.did.clear();
    o.screen.click("W26-131");
    CHECK(o.last<app::OpenLot>().lot == LotId{6});
    CHECK(o.screen.says("Lot W26-131"));
}

TEST_CASE("Lots are opened one after another by key: the list keeps its focus and its place") {
    WholeWindow o(Screen::readiness);
    auto& screen = o.screen;
    screen.click("Ready first");
    for (int i = 0; i < 20 && !screen.is_focused("Readiness/Readiness"); ++i)
        screen.press(ui::Key::tab);
    REQUIRE(screen.is_focused("Readiness/Readiness"));
    screen.press(ui::Key::end);
    CHECK(o.last<app::OpenLot>().lot == LotId{1});
    o.readiness.opened = test::a_bare_story();
    o.readiness.opened->lot = LotId{1};
    o.readiness.opened->code = "M26-007";
    screen.settle();
    CHECK(screen.says("Lot M26-007"));
    CHECK(screen.find("Bands/Readiness/Readiness").focused);
    CHECK(screen.find("M26-007").visible);
    screen.press(ui::Key::up);
    CHECK(o.last<app::OpenLot>().lot == LotId{6});
    o.readiness.opened = test::a_story();
    screen.settle();
    screen.click("Close story");
    CHECK(screen.is_focused("Readiness/Readiness"));
}

TEST_CASE("Looking at another day, the story says as of which day it is") {
    OpenedStory o;
    o.readiness.as_of += Days{8};
    o.screen.settle();
    CHECK(o.screen.says("as of Thu 03 Dec"));
    CHECK(o.screen.value_of("Maturity of W26-131").starts_with("3 Dec"));
}
