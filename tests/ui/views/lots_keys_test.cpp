#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "support/catch.h"
#include "support/iso.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using ui::Key;
using views::Screen;

namespace {

std::string chosen_row(const testing::Screen& screen) {
    for (const auto& note : screen.probe().notes())
        if (note.kind == ui::Kind::row && note.chosen)
            return note.label;
    return {};
}

/// Lots turned to by its key.
struct ByKey : WholeWindow {
    ByKey() : WholeWindow(Screen::plan) { screen.press(Key::f2); }
    void open() {
        screen.press(Key::enter);
        lots.opened = test::a_sheet();
        lots.opened->row.id = last<app::OpenLot>().lot;
        screen.settle();
    }
    [[nodiscard]] bool table_has_focus() const { return screen.find("Lots/Lots").focused; }
};

} // namespace

TEST_CASE("F2 leads to the lots with the keys in the table: arrows choose, and open nothing") {
    ByKey window;
    window.did.clear();
    window.screen.press(Key::down);
    CHECK(chosen_row(window.screen) == "W26-140");
    window.screen.press(Key::down);
    CHECK(chosen_row(window.screen) == "W26-131");
    CHECK(window.did.empty());
    window.screen.press(Key::end);
    CHECK(chosen_row(window.screen) == "M26-007");
}

TEST_CASE("Pressed once more, F2 leads back to the table from wherever the keys are") {
    ByKey window;
    window.screen.click("Show only");
    window.screen.press(Key::f2);
    window.screen.press(Key::down);
    CHECK(chosen_row(window.screen) == "W26-140");
}

TEST_CASE("What is typed in the table goes to the filter, letter by letter, and arrows go on") {
    ByKey window;
    window.screen.type("hear");
    CHECK(window.screen.value_of("Show only") == "hear");
    CHECK(window.screen.says("1 of 7 lots"));
    CHECK(chosen_row(window.screen) == "H26-019");
    window.screen.press(Key::backspace);
    window.screen.press(Key::backspace);
    CHECK(window.screen.value_of("Show only") == "he");
    window.screen.press(Key::down);
    CHECK(window.table_has_focus());
    window.screen.press(Key::escape);
    CHECK(window.screen.value_of("Show only").empty());
    CHECK(window.screen.says("7 lots"));
}

TEST_CASE("Enter opens no lot that the filter hides") {
    ByKey window;
    window.screen.press(Key::down);
    window.screen.type("B26-044");
    window.screen.press(Key::enter);
    CHECK(window.last<app::OpenLot>().lot == LotId{4});
}

TEST_CASE("Enter opens, Escape closes, and the keys are back on the row") {
    ByKey window;
    window.screen.press(Key::down);
    window.screen.press(Key::down);
    window.open();
    CHECK(window.screen.says("In quarantine since Mon 23 Nov"));
    CHECK(window.table_has_focus());
    window.screen.press(Key::escape);
    CHECK_FALSE(window.screen.says("In quarantine since Mon 23 Nov"));
    CHECK(window.table_has_focus());
    CHECK(chosen_row(window.screen) == "W26-131");
    window.did.clear();
    window.screen.press(Key::up);
    CHECK(chosen_row(window.screen) == "W26-140");
    CHECK(window.did.empty());
}

TEST_CASE("Beside an open lot, the arrows open the next one; Enter goes to what can be done") {
    ByKey window;
    window.screen.press(Key::down);
    window.screen.press(Key::down);
    window.open();
    window.screen.press(Key::down);
    CHECK(window.last<app::OpenLot>().lot == LotId{5});
    window.screen.press(Key::up);
    window.screen.press(Key::enter);
    CHECK(window.screen.focused() == "Put on hold");
    window.screen.press(Key::space);
    CHECK(window.screen.says("Hold lot W26-131?"));
    window.screen.press(Key::escape);
    CHECK(window.screen.says("In quarantine since Mon 23 Nov"));
    window.screen.press(Key::escape);
    CHECK_FALSE(window.screen.says("In quarantine since Mon 23 Nov"));
    CHECK(window.table_has_focus());
}

TEST_CASE("Escape in a field of the sheet leaves the field, and closes the sheet only then") {
    ByKey window;
    window.screen.press(Key::down);
    window.open();
    window.screen.click("Log a retest");
    window.screen.type("Retest/Note", "second sample");
    window.screen.press(Key::escape);
    CHECK(window.screen.value_of("Retest/Note") == "second sample");
    window.screen.press(Key::escape);
    CHECK_FALSE(window.screen.offers("Retest/Note"));
    CHECK(window.table_has_focus());
}

TEST_CASE("The pages of a lot are turned by arrows") {
    ByKey window;
    window.screen.press(Key::down);
    window.open();
    window.screen.click("Page/Certificate");
    window.screen.press(Key::right);
    CHECK(window.screen.is_chosen("Page/Aging"));
    window.screen.press(Key::right);
    CHECK(window.screen.says("Bay 2: 4 600 kg"));
}

TEST_CASE("A lot that was closed is opened again by a press on it") {
    ByKey window;
    window.screen.press(Key::down);
    window.open();
    window.screen.click("Close");
    window.did.clear();
    window.screen.click("W26-140");
    CHECK(window.last<app::OpenLot>().lot == LotId{7});
    CHECK(window.screen.offers("Close"));
}

TEST_CASE(
    "Where the window is too narrow for table and sheet, the sheet covers the table till it is closed") {
    ByKey window;
    window.screen.text_size(2);
    window.screen.press(Key::down);
    window.open();
    CHECK_FALSE(window.screen.offers("Show only"));
    CHECK(window.screen.says("In quarantine since Mon 23 Nov"));
    window.screen.press(Key::escape);
    CHECK(window.screen.offers("Show only"));
    CHECK(window.table_has_focus());
}

TEST_CASE("Number, state, stock and readiness of a lot stand whole beside its sheet at 1280 x 720") {
    ByKey window;
    window.lots.rows[0].stock_kg = 24000;
    window.lots.rows[0].ready_on = day_from_iso("2027-01-15");
    window.screen.press(Key::down);
    window.open();
    CHECK(window.screen.value_of("W26-140") == "W26-140 | in quarantine | 24 000 | 15 Jan 2027 (young)");
    const auto& table = window.screen.find("Lots/Lots").rect;
    for (const auto* head : {"Lot", "State", "Stock", "Ready"})
        CHECK(window.screen.find(std::string("Lots/") + head).rect.right <= table.right);
}

TEST_CASE("The readiness of a lot is told by its texture and the day that comes next") {
    ByKey window;
    const auto tells = [&](const char* lot, const char* words) {
        return window.screen.value_of(lot).find(words) != std::string::npos;
    };
    CHECK(tells("W26-140", "4 Dec (young)"));
    CHECK(tells("W26-127", "16 Nov (usable)"));
    CHECK(tells("B26-044", "7 Nov (ready)"));
    CHECK(tells("B26-031", "by 9 Feb 2027 (ready)"));
    CHECK(tells("M26-007", "past 31 Jan 2027 (past its best)"));
}
