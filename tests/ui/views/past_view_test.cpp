#include "app/acts/looking.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

PastLot past_lot(std::int64_t number, const char* code, LotState state) {
    PastLot lot;
    lot.id = LotId{number};
    lot.code = code;
    lot.mill = "Weir Mill";
    lot.flour = "Strong white";
    lot.state = state;
    lot.delivered_on = Day{date::year{2025} / 3 / 4};
    lot.received = Grams{24'000'000};
    lot.ended_at = Instant{date::sys_days{date::year{2025} / 6 / 7}};
    return lot;
}

/// The lots of the past are looked at; the second page of three is shown.
struct PastPage : WholeWindow {
    PastPage() : WholeWindow(Screen::lots) {
        screen.click("Past");
        lots.past.emplace();
        lots.past->query = last<app::ShowPastLots>().query.value();
        lots.past->query.from = 50;
        lots.past->page.lots = {past_lot(901, "W25-031", LotState::used_up),
                                past_lot(902, "W25-032", LotState::rejected)};
        lots.past->page.all = 120;
        screen.settle();
    }
    PastLotQuery asked() { return last<app::ShowPastLots>().query.value(); }
};

} // namespace

TEST_CASE("The lots of the past are asked for when somebody looks at them, and put away afterwards") {
    PastPage window;
    CHECK(window.asked() == PastLotQuery{});
    CHECK(window.screen.value_of("W25-031").find("used up") != std::string::npos);
    CHECK(window.screen.value_of("W25-032").find("2025-06-07") != std::string::npos);
    CHECK_FALSE(window.screen.says("B26-044"));
    window.screen.click("Now");
    CHECK_FALSE(window.last<app::ShowPastLots>().query);
    CHECK(window.screen.says("B26-044"));
}

TEST_CASE("A page of the past says which lots it shows, and asks for the one after and the one before") {
    PastPage window;
    CHECK(window.screen.says("51 to 52 of 120"));
    window.screen.click("Page after");
    CHECK(window.asked().from == 100);
    window.screen.click("Page before");
    CHECK(window.asked().from == 0);
}

TEST_CASE("Words and order of the past are the book's to follow") {
    PastPage window;
    window.screen.type("Show only", "W25");
    CHECK(window.asked().words == "W25");
    CHECK(window.asked().from == 0);
    window.screen.click("Received");
    CHECK(window.asked().order == PastOrder::received);
    CHECK_FALSE(window.asked().is_descending);
    window.screen.click("Received");
    CHECK(window.asked().is_descending);
}

TEST_CASE("A lot of the past is opened like any other") {
    PastPage window;
    window.screen.click("W25-032");
    CHECK(window.last<app::OpenLot>().lot == LotId{902});
}

TEST_CASE("A lot that another station changed says so in the table, with who and when") {
    WholeWindow window(Screen::lots);
    for (auto& row : window.lots.rows)
        if (row.code == "B26-044")
            row.changed = "04:12, Ines";
    window.screen.settle();
    CHECK(window.screen.says("B26-044 · 04:12, Ines"));
}

TEST_CASE("The mixer reads above the card what another station changed of its lots") {
    WholeWindow window(Screen::mixer);
    window.mixer.changed = {"04:12, Ines: Lot B26-044 put on hold: insects"};
    window.screen.settle();
    CHECK(window.screen.says("04:12, Ines: Lot B26-044 put on hold: insects"));
}

TEST_CASE("The journal is turned back a page, and to the newest again") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    window.settings.journal_has_older = true;
    screen.click("Journal");
    CHECK_FALSE(screen.is_enabled("Newest"));
    screen.click("Older");
    CHECK(window.last<app::ShowJournal>().before == 1);
    window.settings.journal_has_newer = true;
    screen.settle();
    screen.click("Newest");
    CHECK(window.last<app::ShowJournal>().before == 0);
}
