#include "support/catch.h"
#include "support/iso.h"
#include "support/screen.h"
#include "ui/widgets/ui.h"

#include <string>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::testing::Screen;

namespace {

const Day monday = day_from_iso("2024-11-25");
const double today = day_number(monday);

struct Readiness {
    std::size_t rows = 5000, filled = 0;
    TimeAxis axis{.from = today - 14, .days = 42, .today = today};
    BandEvents last;
    Span spans[2];
    BandTick ticks[1];
    std::string label, run;

    void draw() {
        filled = 0;
        const BandEvents events =
            band_chart({.name = "Readiness",
                        .rows = rows,
                        .record = [](std::size_t i) { return static_cast<std::int64_t>(i) + 1; },
                        .fill_row = [&](std::size_t i, BandRow& row) { fill(i, row); },
                        .real_today = today},
                       axis);
        if (events.selected || events.opened || events.tick || events.today_moved)
            last = events;
        under = events.under_pointer;
        day = events.day_under_pointer;
    }
    void fill(std::size_t i, BandRow& row) {
        ++filled;
        label = "W24-" + std::to_string(i + 1);
        run = "Run of " + label;
        spans[0] = {today - 10, today + 5, Texture::young};
        spans[1] = {today + 5, today + 40, Texture::ready};
        ticks[0] = {static_cast<std::int64_t>(100 + i), today + 7, run};
        row = {.label = label,
               .detail = "Strong white",
               .spans = spans,
               .ready_from = Fade{today + 2, today + 4, today + 5, today + 6, today + 9},
               .ticks = ticks,
               .words = "ready from 30 Nov"};
    }
    std::optional<std::int64_t> under;
    double day = 0;
};

struct Plan {
    BoardState state;
    BoardEvents last;
    std::optional<BoardEvents::Drop> dropped;
    CardShare shares[2]{{11, "W24-11", "750", Texture::ready, "ready"},
                        {12, "W24-12", "250", Texture::young, "young"}};
    CardFoot feet[1]{{"short 340 kg", Role::stop}};
    std::size_t cards = 4;
    int filled = 0; ///< in the last frame
    bool takes_drops = true;

    static CardPlace place(std::size_t i) {
        return {.id = static_cast<std::int64_t>(i) + 1,
                .line = static_cast<int>(i % 2),
                .day = static_cast<int>(i / 2 % 7),
                .shares = 2,
                .feet = i == 2 ? 1 : 0};
    }
    void fill(std::size_t i, Card& card) {
        static const std::string_view products[]{"Pan bread", "Bun", "Hearth loaf", "Wholemeal loaf"};
        ++filled;
        card = {.title = products[i % 4], .amount = "1000.0 kg", .shares = shares};
        if (i == 2)
            card.feet = feet;
    }
    /// The second line takes no cards on the second day; a lot goes onto any card but its own.
    static DropWords judge(Carried what, DropPlace where) {
        using Would = DropWords::Would;
        if (where.line < 0 || (what.lot && (!where.onto || *where.onto == what.card)))
            return {Would::stay, "it stays"};
        if (!what.lot && where.line == 1 && where.day == 1)
            return {Would::be_refused, "the line is cleaned that day"};
        return {Would::move, what.lot ? "the lot goes there" : "place " + std::to_string(where.place)};
    }
    void draw() {
        static const std::string_view lines[]{"Line 1", "Line 2"};
        filled = 0;
        const auto fill_card = [&](std::size_t i, Card& card) { fill(i, card); };
        const auto place_card = [](std::size_t i) { return place(i); };
        const auto told = [](Carried what, DropPlace where) { return judge(what, where); };
        Board drawn{.name = "Plan",
                    .lines = lines,
                    .first_day = monday,
                    .days = 7,
                    .today = monday,
                    .cards = cards,
                    .place_card = place_card,
                    .fill_card = fill_card};
        if (takes_drops)
            drawn.judge = told;
        const auto may_add = [](BoardCell cell) { return cell.day > 0; };
        drawn.may_add = may_add;
        const BoardEvents events = board(drawn, state);
        if (events.selected || events.opened || events.lot || events.added)
            last = events;
        if (events.dropped)
            dropped = events.dropped;
    }
    /// The width of a day on the screen.
    static float day_width(Screen& screen) {
        return screen.find("Hearth loaf").rect.left - screen.find("Pan bread").rect.left;
    }
};

/// Presses at a point and moves there and on, without letting go.
// Rows of a card, below its title and amount.
constexpr float first_lot = 60, second_lot = 82;

void begin_drag(Screen& screen, float x, float y, float to_x, float to_y) {
    screen.point_at(x, y);
    screen.ui().pointer_pressed();
    screen.settle();
    screen.point_at((x + to_x) / 2, (y + to_y) / 2);
    screen.point_at(to_x, to_y);
}

void let_go(Screen& screen) {
    screen.ui().pointer_released();
    screen.settle();
}

} // namespace

TEST_CASE("A chart of 5,000 lots fills the rows that are seen and no more") {
    Readiness chart;
    Screen screen([&] { chart.draw(); });
    CHECK(chart.filled > 3);
    CHECK(chart.filled < 20);
}

TEST_CASE("A row of the chart is chosen by its record, by pointer and by keys") {
    Readiness chart;
    Screen screen([&] { chart.draw(); });
    screen.click("W24-3");
    CHECK(chart.axis.selected == 3);
    screen.press(Key::down);
    CHECK(chart.axis.selected == 4);
    CHECK(screen.is_chosen("W24-4"));
    screen.press(Key::enter);
    CHECK(chart.last.opened);
    CHECK(screen.value_of("W24-4") == "Strong white | ready from 30 Nov");
}

TEST_CASE("The pointer in the chart knows the lot and the day") {
    Readiness chart;
    Screen screen([&] { chart.draw(); });
    screen.point_at("W24-2");
    CHECK(chart.under == 2);
    // Two points a known distance apart give the days between them.
    const Note& row = screen.find("W24-2");
    const float y = (row.rect.top + row.rect.bottom) / 2;
    screen.point_at(600, y);
    const double at_600 = chart.day;
    screen.point_at(900, y);
    const Rect tick = screen.find("Run of W24-2").rect;
    screen.point_at((tick.left + tick.right) / 2, y);
    CHECK(at_600 < chart.day);
    CHECK(chart.day == Approx(today + 7.5).margin(0.1)); // a tick stands in the middle of its day
}

TEST_CASE("A tick that is clicked gives its run") {
    Readiness chart;
    Screen screen([&] { chart.draw(); });
    screen.click("Run of W24-5");
    CHECK(chart.last.tick == 104);
}

TEST_CASE("Today's line is dragged by days, moved by keys, and Home brings it back") {
    Readiness chart;
    Screen screen([&] { chart.draw(); });
    const Rect run = screen.find("Run of W24-1").rect, tab = screen.find("today").rect;
    const float to_the_run = (run.left + run.right) / 2 - (tab.left + tab.right) / 2;
    screen.drag("today", to_the_run, 0);
    CHECK(chart.axis.today == today + 7);
    CHECK(chart.last.today_moved);
    CHECK(screen.value_of("today") == "2 Dec");
    screen.press(Key::left);
    CHECK(chart.axis.today == today + 6);
    screen.press(Key::home);
    CHECK(chart.axis.today == today);
}

TEST_CASE("The axis moves and zooms, within bounds") {
    Readiness chart;
    Screen screen([&] { chart.draw(); });
    screen.click("W24-1");
    const double from = chart.axis.from;
    screen.press(Key::right);
    CHECK(chart.axis.from > from);
    for (int i = 0; i < 30; ++i)
        screen.press(Key::plus);
    CHECK(chart.axis.days == Approx(7));
    screen.turn_wheel("W24-1", -100, Mods::ctrl);
    CHECK(chart.axis.days == Approx(400));
}

TEST_CASE("A run on the board is chosen by its card, and a lot by its row") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    CHECK(screen.says("short 340 kg"));
    screen.click("Bun");
    CHECK(plan.state.selected == 2);
    CHECK(screen.is_chosen("Bun"));
    CHECK_THAT(screen.value_of("Bun"), Catch::Contains("W24-11 750 ready"));

    plan.last = {};
    const Rect card = screen.find("Bun").rect;
    screen.point_at(card.left + 30, card.top + first_lot);
    screen.ui().pointer_pressed();
    screen.ui().pointer_released();
    screen.settle();
    CHECK(plan.last.lot == 11);
    screen.point_at(card.left + 30, card.top + second_lot);
    screen.ui().pointer_pressed();
    screen.ui().pointer_released();
    screen.settle();
    CHECK(plan.last.lot == 12);
}

TEST_CASE("Arrows go from card to card as they stand") {
    Plan plan;
    plan.state.selected = 1;
    Screen screen([&] { plan.draw(); });
    screen.press(Key::tab);
    screen.press(Key::right);
    CHECK(plan.state.selected == 3);
    screen.press(Key::down);
    CHECK(plan.state.selected == 4);
    screen.press(Key::left);
    CHECK(plan.state.selected == 2);
    screen.press(Key::up);
    CHECK(plan.state.selected == 1);
    screen.press(Key::enter);
    CHECK(plan.last.opened);
}

TEST_CASE("Arrows come to empty days, too, and Enter or a press there wants a card on that line and day") {
    Plan plan;
    plan.state.selected = 3;
    Screen screen([&] { plan.draw(); });
    screen.press(Key::tab);
    screen.press(Key::right);
    CHECK_FALSE(plan.state.selected);
    CHECK(plan.state.cell == BoardCell{0, 2});
    screen.press(Key::enter);
    CHECK(plan.last.added == BoardCell{0, 2});
    screen.press(Key::left);
    CHECK(plan.state.selected == 3);
    plan.last = {};
    screen.press(Key::plus); // beside the chosen card
    CHECK(plan.last.added == BoardCell{0, 1});
    plan.last = {};
    screen.click("Add a run: Line 2, Fri 29 Nov");
    CHECK(plan.last.added == BoardCell{1, 4});
    CHECK_FALSE(screen.offers("Add a run: Line 1, Mon 25 Nov")); // nobody may add there
}

TEST_CASE("Only what fails stands at a card's foot") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    CHECK_THAT(screen.value_of("Hearth loaf"), Catch::Contains("✕ short 340 kg"));
    CHECK_THAT(screen.value_of("Bun"), !Catch::Contains("✕"));
}

TEST_CASE("A value in its window says inside, outside or not known in words") {
    Screen screen([] {
        window_bar({.label = "Moisture", .value = 12.4, .low = 11.0, .high = 14.5, .unit = "%"});
        window_bar({.label = "Protein", .value = 9.9, .low = 10.5, .unit = "%"});
        window_bar({.label = "Wet gluten", .low = 24.0, .unit = "%"});
    });
    CHECK(screen.value_of("Moisture") == "12.4 (inside 11.0 – 14.5 %)");
    CHECK(screen.value_of("Protein") == "9.9 (outside ≥ 10.5 %)");
    CHECK_THAT(screen.value_of("Wet gluten"), Catch::StartsWith("not known"));
}

TEST_CASE("Of 1,200 cards only those that are seen are filled") {
    Plan plan;
    plan.cards = 1200;
    Screen screen([&] { plan.draw(); });
    CHECK(plan.filled > 6);
    CHECK(plan.filled < 60);
}

TEST_CASE("A card is dragged to another day and place, and says on the way what letting go would do") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    const Rect from = screen.find("Pan bread").rect, to = screen.find("Hearth loaf").rect;
    begin_drag(screen, from.left + 20, from.top + 15, to.left + 20, to.bottom - 10);
    CHECK(screen.says("place 2"));
    CHECK_FALSE(plan.dropped);
    let_go(screen);
    REQUIRE(plan.dropped);
    CHECK(plan.dropped->what.card == 1);
    CHECK_FALSE(plan.dropped->what.lot);
    CHECK(plan.dropped->where.line == 0);
    CHECK(plan.dropped->where.day == 1);
    CHECK(plan.dropped->where.place == 2);
    CHECK_FALSE(screen.says("place 2"));
}

TEST_CASE("A place that refuses says why, and nothing is moved there") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    const Rect from = screen.find("Pan bread").rect, to = screen.find("Wholemeal loaf").rect;
    begin_drag(screen, from.left + 20, from.top + 15, to.left + 20, to.top + 20);
    CHECK(screen.says("✕ the line is cleaned that day"));
    let_go(screen);
    CHECK_FALSE(plan.dropped);
    CHECK_FALSE(plan.state.hand);
}

TEST_CASE("Escape leaves what is dragged where it was") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    const Rect from = screen.find("Pan bread").rect;
    begin_drag(screen, from.left + 20, from.top + 15, from.left + 20 + 2 * Plan::day_width(screen),
               from.top + 15);
    screen.press(Key::escape);
    CHECK_FALSE(plan.state.hand);
    let_go(screen);
    CHECK_FALSE(plan.dropped);
    CHECK_FALSE(plan.state.selected);
}

TEST_CASE("A lot's part is dragged onto another card") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    const Rect from = screen.find("Bun").rect, to = screen.find("Hearth loaf").rect;
    begin_drag(screen, from.left + 40, from.top + second_lot, to.left + 30, to.top + 20);
    CHECK(screen.says("the lot goes there"));
    let_go(screen);
    REQUIRE(plan.dropped);
    CHECK(plan.dropped->what.card == 2);
    CHECK(plan.dropped->what.lot == 12);
    CHECK(plan.dropped->where.onto == 3);
    CHECK_FALSE(plan.last.lot); // it was not tapped
}

TEST_CASE("A press that hardly moves is a tap, and a board that takes no drops is dragged in vain") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    const Rect from = screen.find("Bun").rect;
    begin_drag(screen, from.left + 20, from.top + 15, from.left + 24, from.top + 17);
    let_go(screen);
    CHECK(plan.state.selected == 2);

    plan.takes_drops = false;
    begin_drag(screen, from.left + 20, from.top + 15, from.left + 300, from.top + 15);
    let_go(screen);
    CHECK_FALSE(plan.dropped);
}

TEST_CASE("What was picked up goes by arrows to its place, and Enter puts it down") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    plan.state.selected = 1;
    plan.state.pick_up({1, {}});
    screen.settle();
    CHECK(screen.is_focused("Plan"));
    screen.press(Key::right);
    screen.press(Key::down);
    CHECK(screen.says("place 2"));
    CHECK(screen.says("Enter or a tap puts it there, Escape leaves it"));
    screen.press(Key::enter);
    REQUIRE(plan.dropped);
    CHECK(plan.dropped->where.line == 0);
    CHECK(plan.dropped->where.day == 1);
    CHECK(plan.dropped->where.place == 2);
    CHECK(plan.state.selected == 1);
}

TEST_CASE("Picked up, a card refuses a place by key, too, and goes on to the next line at a day's end") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    plan.state.pick_up({1, {}});
    screen.settle();
    screen.press(Key::right);
    screen.press(Key::down); // below Hearth loaf
    screen.press(Key::down); // above Wholemeal loaf, on Line 2
    CHECK(screen.says("the line is cleaned that day"));
    screen.press(Key::enter);
    CHECK_FALSE(plan.dropped);
    CHECK(plan.state.hand);
    screen.press(Key::escape);
    CHECK_FALSE(plan.state.hand);
}

TEST_CASE("A lot that was picked up is given to the card that is tapped") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    plan.state.pick_up({2, 11});
    screen.settle();
    screen.click("Hearth loaf");
    REQUIRE(plan.dropped);
    CHECK(plan.dropped->what.lot == 11);
    CHECK(plan.dropped->where.onto == 3);
    CHECK(plan.state.selected != 3); // the tap put the lot down and chose nothing
}

TEST_CASE("Space goes through the lots of the chosen card") {
    Plan plan;
    plan.state.selected = 1;
    Screen screen([&] { plan.draw(); });
    screen.press(Key::tab);
    screen.press(Key::space);
    CHECK(plan.state.lot == 11);
    screen.press(Key::space);
    CHECK(plan.state.lot == 12);
    screen.press(Key::space);
    CHECK_FALSE(plan.state.lot);
}

TEST_CASE("Every specification stands on the same stretch of its bar, and only what fails is told as such") {
    static const SpecificationRow rows[]{{.label = "Moisture",
                                          .unit = "%",
                                          .decimals = 1,
                                          .low = {},
                                          .high = 14.5,
                                          .mill = {13.7},
                                          .own = {13.4}},
                                         {.label = "Falling number",
                                          .unit = "s",
                                          .decimals = 0,
                                          .low = 250,
                                          .high = 420,
                                          .mill = {228, true},
                                          .own = {262}},
                                         {.label = "Protein",
                                          .unit = "%",
                                          .decimals = 1,
                                          .low = 11.8,
                                          .high = 14,
                                          .mill = {{}, false, "no basis"},
                                          .own = {}}};
    testing::Screen screen([&] {
        specification_bars(
            {.mill_day = "13 Nov", .own_day = "27 Nov", .basis = "All on 14 % moisture", .rows = rows});
    });
    CHECK(screen.says("mill, 13 Nov"));
    CHECK(screen.says("own, 27 Nov"));
    CHECK(screen.value_of("Moisture") == "mill 13.7; own 13.4; at most 14.5");
    CHECK(screen.value_of("Falling number") == "mill 228, below; own 262; 250 to 420");
    CHECK(screen.value_of("Protein") == "mill no basis; own not reported; 11.8 to 14.0");
}
