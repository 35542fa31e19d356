#include "support/catch.h"
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
    CardShare shares[2]{{11, "W24-11", 750}, {12, "W24-12", 250}};
    CardGauge gauges[1]{{"strength", "in", 0.8, Role::good}};

    void draw() {
        static const std::string_view lines[]{"Line 1", "Line 2"};
        const BoardEvents events = board({.name = "Plan",
                                          .lines = lines,
                                          .first_day = monday,
                                          .days = 7,
                                          .today = monday,
                                          .cards = 4,
                                          .fill_card =
                                              [&](std::size_t i, Card& card) {
                                                  static const std::string_view products[]{
                                                      "Pan bread", "Bun", "Hearth loaf", "Wholemeal loaf"};
                                                  card = {.id = static_cast<std::int64_t>(i) + 1,
                                                          .line = static_cast<int>(i % 2),
                                                          .day = static_cast<int>(i / 2),
                                                          .title = products[i],
                                                          .amount = "1000.0 kg",
                                                          .shares = shares,
                                                          .gauges = gauges,
                                                          .shortage = i == 2 ? "short 340 kg" : ""};
                                              }},
                                         state);
        if (events.selected || events.opened || events.lot)
            last = events;
    }
};

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

TEST_CASE("A run on the board is chosen by its card, and a lot by its part of the bar") {
    Plan plan;
    Screen screen([&] { plan.draw(); });
    CHECK(screen.says("short 340 kg"));
    screen.click("Bun");
    CHECK(plan.state.selected == 2);
    CHECK(screen.is_chosen("Bun"));
    CHECK_THAT(screen.value_of("Bun"), Catch::Contains("W24-11") && Catch::Contains("strength: in"));

    plan.last = {};
    const Rect card = screen.find("Bun").rect;
    const float shares = card.top + 70; // below title and amount
    screen.point_at(card.left + card.width() * 0.3f, shares);
    screen.ui().pointer_pressed();
    screen.ui().pointer_released();
    screen.settle();
    CHECK(plan.last.lot == 11);
    screen.point_at(card.left + card.width() * 0.9f, shares);
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
