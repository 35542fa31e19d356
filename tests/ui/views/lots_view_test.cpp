#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/print_papers.h"
#include "app/acts/stock.h"
#include "support/catch.h"
#include "ui/views/lots/sorted.h"
#include "ui/views/whole_window.h"

#include <algorithm>

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

/// Numbers of the lots in the order in which the table shows them.
std::vector<std::string> shown(const testing::Screen& screen) {
    std::vector<std::string> codes;
    for (const auto& note : screen.probe().notes())
        if (note.kind == ui::Kind::row && note.path.find("Lots/") != std::string::npos)
            codes.push_back(note.label);
    return codes;
}

/// Also below what is in view.
bool stands_in(const testing::Screen& screen, std::string_view words) {
    const auto& notes = screen.probe().notes();
    return std::any_of(notes.begin(), notes.end(), [&](const auto& note) {
        return note.label.find(words) != std::string::npos || note.value.find(words) != std::string::npos;
    });
}

/// In the dialog that lies over all else; null: not there.
const ui::Note* in_the_question(const testing::Screen& screen, std::string_view words) {
    int top = 0;
    for (const auto& note : screen.probe().notes())
        top = std::max(top, note.layer);
    for (const auto& note : screen.probe().notes())
        if (note.layer == top && note.label.find(words) != std::string::npos)
            return &note;
    return nullptr;
}

const ui::Note* selected_row(const testing::Screen& screen) {
    for (const auto& note : screen.probe().notes())
        if (note.kind == ui::Kind::row && note.chosen)
            return &note;
    return nullptr;
}

struct OpenedLot : WholeWindow {
    OpenedLot() : WholeWindow(Screen::lots) {
        lots.opened = test::a_sheet();
        screen.settle();
    }
};

} // namespace

TEST_CASE("A book without lots says what to do first") {
    WholeWindow window(Screen::lots);
    window.lots.rows.clear();
    window.tell(test::done(1, "begun"));
    CHECK(window.screen.says("No lots yet. Take in a delivery on Intake (F1)."));
}

TEST_CASE("The table shows each lot with its state in words, and a missing figure as missing") {
    WholeWindow window(Screen::lots, {.width = 1600, .height = 1000});
    const auto line = window.screen.value_of("B26-044");
    CHECK(line.find("released") != std::string::npos);
    CHECK(line.find("12 800") != std::string::npos);
    CHECK(line.find(" | –") != std::string::npos);
}

TEST_CASE("A click on a head sorts by it, a second one turns it round, missing values stay last") {
    WholeWindow window(Screen::lots, {.width = 1600, .height = 1000});
    auto& screen = window.screen;
    screen.click("Protein");
    auto codes = shown(screen);
    REQUIRE(codes.size() == 7);
    CHECK(codes.front() == "M26-007");
    CHECK(codes.back() == "B26-044");
    screen.click("Protein");
    codes = shown(screen);
    CHECK(codes.front() == "W26-140");
    CHECK(codes.back() == "B26-044");
}

TEST_CASE("Sorting and filtering keep the selected lot selected") {
    WholeWindow window(Screen::lots);
    auto& screen = window.screen;
    screen.click("H26-019");
    CHECK(window.last<app::OpenLot>().lot == LotId{3});
    screen.click("Stock");
    REQUIRE(selected_row(screen));
    CHECK(selected_row(screen)->label == "H26-019");
    screen.type("Show only", "hold hearth");
    CHECK(shown(screen) == std::vector<std::string>{"H26-019"});
    CHECK(screen.says("1 of 7 lots"));
    REQUIRE(selected_row(screen));
    screen.type("Show only", "");
    REQUIRE(selected_row(screen));
    CHECK(selected_row(screen)->label == "H26-019");
    CHECK(shown(screen).size() == 7);
}

TEST_CASE("A person chooses the columns, and the lot's number always stays") {
    WholeWindow window(Screen::lots);
    auto& screen = window.screen;
    screen.click("Choose columns");
    CHECK_FALSE(screen.is_enabled("Columns/Lot"));
    screen.click("Columns/Ready");
    screen.click("Close columns");
    CHECK(screen.value_of("B26-044").find("(ready)") == std::string::npos);
    CHECK(screen.value_of("B26-044").find("released") != std::string::npos);
}

TEST_CASE("A filter that no lot passes says so and how to get back") {
    WholeWindow window(Screen::lots);
    window.screen.type("Show only", "rye");
    CHECK(window.screen.says("No lot has all of \"rye\" in its words. Empty the filter to see all."));
}

TEST_CASE("Rows are put in order anew when the book changed, and only then") {
    auto model = test::seven_lots();
    views::SortedLots sorted;
    views::SortedLots::Wanted by_stock{"", static_cast<int>(views::LotColumn::stock), ui::Direction::up, 1};
    CHECK(model.rows[sorted.rows(model.rows, by_stock).front()].code == "M26-007");
    model.rows[0].stock_kg = 1;
    CHECK(model.rows[sorted.rows(model.rows, by_stock).front()].code == "M26-007");
    by_stock.made = 2;
    CHECK(model.rows[sorted.rows(model.rows, by_stock).front()].code == "W26-140");
}

TEST_CASE("A lot found by a search is opened beside the table and chosen in it") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    auto answer = test::done(1, "Lot W26-131");
    answer.screen = "Lots";
    window.lots.opened = test::a_sheet();
    window.tell(answer);
    CHECK(window.screens.current() == Screen::lots);
    CHECK(screen.says("In quarantine since Mon 23 Nov"));
    REQUIRE(selected_row(screen));
    CHECK(selected_row(screen)->label == "W26-131");
}

TEST_CASE(
    "The sheet says the state with its reason, the windows with their verdicts, and what the lot fits") {
    OpenedLot window;
    CHECK(window.screen.says("In quarantine since Mon 23 Nov"));
    CHECK(window.screen.says("The mill's falling number, 376 s, is over 350 s. Our own of Tue 24 Nov, 262 s, "
                             "is under 280 s."));
    CHECK(window.screen.says("Not reported: ash."));
    CHECK(window.screen.value_of("Falling number") == "mill 376, above; own 262, below; 280 to 350");
    CHECK(window.screen.value_of("Ash") == "mill not reported; own not reported; 0.50 to 0.60");
    CHECK(stands_in(window.screen, "Bun: Protein 12.6 %, below 13.0 to 14.0 %"));
    window.screen.click("Aging");
    CHECK(stands_in(window.screen, "The plant's own bakes have not yet sharpened this estimate."));
}

TEST_CASE("Only the states a lot may take are offered") {
    OpenedLot window;
    CHECK(window.screen.offers("Release lot"));
    window.lots.opened->row.state = LotState::rejected;
    window.screen.settle();
    CHECK_FALSE(window.screen.offers("Release lot"));
    CHECK_FALSE(window.screen.offers("Reject lot"));
    CHECK(window.screen.offers("Put on hold"));
}

TEST_CASE("The labels of a lot in stock are printed from its sheet, and of one that is used up none") {
    OpenedLot window;
    window.screen.click("Places");
    window.screen.click("Print pallet labels");
    CHECK(window.last<app::PrintPalletLabels>().lot == window.lots.opened->row.id);
    window.lots.opened->places.clear();
    window.screen.settle();
    CHECK_FALSE(window.screen.offers("Print pallet labels"));
}

TEST_CASE("A lot is held after a question, with its reason") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Put on hold");
    CHECK(screen.says("Hold lot W26-131?"));
    CHECK(screen.focused() == "Reason");
    screen.type("awaiting retest");
    screen.press(ui::Key::enter);
    CHECK(window.last<app::HoldLot>().reason == "awaiting retest");
    CHECK(window.last<app::HoldLot>().lot == LotId{6});
    window.tell(test::done(1, "Lot W26-131 held: awaiting retest"));
    CHECK_FALSE(screen.says("Hold lot W26-131?"));
}

TEST_CASE("Escape in a question does nothing to the lot") {
    OpenedLot window;
    window.did.clear();
    window.screen.click("Reject lot");
    window.screen.press(ui::Key::escape);
    CHECK(window.did.empty());
    CHECK_FALSE(window.screen.says("Reject lot W26-131?"));
}

TEST_CASE("A refused question stays open with what was typed, its refusal beside the field") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Places");
    screen.click("Bay 2/Move");
    CHECK_FALSE(screen.is_enabled("Move"));
    screen.type("Weight", "9 000");
    screen.click("Silo 2");
    screen.click("Move");
    CHECK(window.last<app::MoveLot>().kg == "9 000");
    CHECK(window.last<app::MoveLot>().from == PlaceId{2});
    CHECK(window.last<app::MoveLot>().to == PlaceId{5});
    window.tell(test::refused(1, {{"Weight", "\"9 000\" was read; a number is expected", "Type digits"}}));
    CHECK(screen.value_of("Weight") == "9 000");
    CHECK(screen.find("\"9 000\" was read; a number is expected. Type digits").kind == ui::Kind::refusal);
}

TEST_CASE("A question that failed comes back with what was typed") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Put on hold");
    screen.type("awaiting retest");
    screen.press(ui::Key::enter);
    window.tell(test::failed(1));
    CHECK(screen.says("The book could not be written: the disk is full"));
    CHECK_FALSE(screen.offers("Reason"));
    window.tell({});
    CHECK(screen.value_of("Reason") == "awaiting retest");
}

TEST_CASE("A movement is taken back after a question, by its own number") {
    OpenedLot window;
    window.screen.click("Places");
    window.screen.click("Take back");
    CHECK(window.screen.says("move: 5 000 kg from Bay 2 to Silo 1"));
    window.screen.type("Reason", "wrong silo");
    window.screen.press(ui::Key::enter);
    CHECK(window.last<app::CounterMovement>().movement == MovementId{2});
    CHECK(window.last<app::CounterMovement>().reason == "wrong silo");
}

TEST_CASE("A place is counted with the figure as typed, and with why it differs") {
    OpenedLot window;
    window.screen.click("Places");
    window.screen.click("Silo 1/Count");
    window.screen.type("Counted", "4980,5");
    window.screen.type("Reason", "swept up");
    window.screen.press(ui::Key::enter);
    CHECK(window.last<app::CountLot>().place == PlaceId{4});
    CHECK(window.last<app::CountLot>().kg == "4980,5");
    CHECK(window.last<app::CountLot>().reason == "swept up");
}

TEST_CASE("The curve can be read as a table") {
    OpenedLot window;
    window.screen.click("Aging");
    window.screen.click("Show as a table");
    CHECK(stands_in(window.screen, "2026-11-13"));
    CHECK(window.screen.offers("Show the curve"));
}

TEST_CASE(
    "The sheet says how long the lot may be used, what was found at the door, and how a retest stands") {
    OpenedLot window;
    CHECK(window.screen.value_of("Best before") == "25 Mar 2027");
    CHECK(window.screen.value_of("At the door") == "✕ 1 no");
    CHECK(window.screen.says("1 not looked at · 1 yes"));
    CHECK(stands_in(window.screen, "Bags dry and not torn: no, 3 bags, wet at one corner"));
    CHECK(stands_in(window.screen, "The flour came at 24.0 °C"));
    window.screen.click("Show every result");
    CHECK(stands_in(window.screen, "Retest of 2026-11-24, Ines: out of specification: Falling number 262 s"));
    window.lots.opened->door.clear();
    window.lots.opened->is_over = true;
    window.screen.settle();
    CHECK(stands_in(window.screen, "✕ passed"));
    CHECK(stands_in(window.screen, "No check at the door was logged."));
}

TEST_CASE("Whoever releases a lot is shown the door, the newest retest and then the certificate") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Release lot");
    CHECK(screen.says("Release lot W26-131?"));
    CHECK(in_the_question(screen, "Bags dry and not torn: no, 3 bags, wet at one corner"));
    CHECK(in_the_question(screen, "Free of insects and foreign smell: not looked at"));
    const auto* retest = in_the_question(screen, "Retest of 2026-11-24, Ines: out of specification: Falling");
    const auto* certificate =
        in_the_question(screen, "Certificate: out of specification: Falling number 376 s");
    REQUIRE(retest);
    REQUIRE(certificate);
    CHECK(retest->rect.top < certificate->rect.top);
}

TEST_CASE("A best-before day is extended after a question, with the day as typed and a reason") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Extend best before");
    CHECK(screen.says("How long may lot W26-131 be used?"));
    screen.type("Until", "24.12.2026");
    screen.type("Reason", "retest sound");
    screen.click("Extend");
    CHECK(window.last<app::ExtendBestBefore>().until == "24.12.2026");
    CHECK(window.last<app::ExtendBestBefore>().reason == "retest sound");
    CHECK(window.last<app::ExtendBestBefore>().lot == LotId{6});
    window.tell(
        test::refused(1, {{"Until", "\"24.12.2026\" was read; a date is expected", "Type YYYY-MM-DD"}}));
    CHECK(screen.value_of("Until") == "24.12.2026");
    CHECK(screen.value_of("Reason") == "retest sound");
    CHECK(screen.find("\"24.12.2026\" was read; a date is expected. Type YYYY-MM-DD").kind ==
          ui::Kind::refusal);
}

TEST_CASE("A lot without a printed day has none to extend") {
    OpenedLot window;
    window.lots.opened->best_before.reset();
    window.screen.settle();
    CHECK_FALSE(window.screen.offers("Extend best before"));
}

TEST_CASE(
    "Flour that was not mixed is brought back from the run that is chosen, into a place that is chosen") {
    OpenedLot window;
    auto& screen = window.screen;
    screen.click("Places");
    screen.click("Bring back");
    CHECK(screen.says("How much of W26-131 comes back?"));
    screen.click("R261125-1-2: 74.5 kg");
    screen.type("Weight", "25,5");
    screen.type("Reason", "not tipped");
    screen.click("Silo 2");
    screen.click("Bring back");
    const auto& act = window.last<app::GiveBack>();
    CHECK(act.lot == LotId{6});
    CHECK(act.run == RunId{12});
    CHECK(act.to == PlaceId{5});
    CHECK(act.kg == "25,5");
    CHECK(act.reason == "not tipped");
}

TEST_CASE("A lot that is all used up can still have flour brought back; one that never went out cannot") {
    OpenedLot window;
    window.screen.click("Places");
    window.lots.opened->places.clear();
    window.lots.opened->row.state = LotState::used_up;
    window.screen.settle();
    CHECK(window.screen.offers("Bring back"));
    window.lots.opened->out.clear();
    window.screen.settle();
    CHECK_FALSE(window.screen.offers("Bring back"));
}
