#include "support/catch.h"
#include "support/screen.h"
#include "ui/widgets/ui.h"

#include <algorithm>
#include <string>
#include <vector>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::testing::Screen;

namespace {

struct LotTable {
    std::size_t rows = 5000;
    std::size_t written = 0;
    TableState state;
    TableEvents last;
    std::vector<std::int64_t> order;

    LotTable() {
        for (std::size_t i = 0; i < rows; ++i)
            order.push_back(static_cast<std::int64_t>(i) + 1);
    }
    void draw() {
        static const Column columns[]{
            {.head = "Lot", .sample = "W24-0000"},
            {.head = "Stock", .unit = "kg", .sample = "10000.0", .align = Align::right}};
        written = 0;
        const TableEvents events = table({.name = "Lots",
                                          .columns = columns,
                                          .rows = order.size(),
                                          .record = [&](std::size_t i) { return order[i]; },
                                          .write_row =
                                              [&](std::size_t i, RowWriter& row) {
                                                  ++written;
                                                  row.cell("W24-" + std::to_string(order[i]));
                                                  row.cell(std::to_string(order[i] * 10) + ".0");
                                              },
                                          .when_empty = "No lots yet: take in a delivery first."},
                                         state);
        if (events.selected || events.opened || events.sort_changed)
            last = events;
    }
};

} // namespace

TEST_CASE("A table of 5,000 rows writes the rows that are seen and no more") {
    LotTable lots;
    Screen screen([&] { lots.draw(); });
    CHECK(lots.written > 5);
    CHECK(lots.written < 25);
    screen.turn_wheel("Lots", -100);
    CHECK(lots.written < 25);
    CHECK_FALSE(screen.offers("W24-1"));
}

TEST_CASE("A table is worked by keys: rows, pages, ends, and opening") {
    LotTable lots;
    Screen screen([&] { lots.draw(); });
    screen.press(Key::tab);
    screen.press(Key::down);
    CHECK(lots.state.selected == 1);
    screen.press(Key::down);
    CHECK(lots.state.selected == 2);
    screen.press(Key::end);
    CHECK(lots.state.selected == 5000);
    CHECK(screen.is_chosen("W24-5000")); // and it was scrolled to
    screen.press(Key::up);
    CHECK(lots.state.selected == 4999);
    screen.press(Key::home);
    CHECK(lots.state.selected == 1);
    screen.press(Key::page_down);
    CHECK(*lots.state.selected > 5);
    screen.press(Key::enter);
    CHECK(lots.last.opened);
}

TEST_CASE("The selection is the record, not the place") {
    LotTable lots;
    Screen screen([&] { lots.draw(); });
    screen.click("W24-3");
    CHECK(lots.state.selected == 3);
    std::reverse(lots.order.begin(), lots.order.begin() + 5);
    screen.settle();
    CHECK(screen.is_chosen("W24-3"));
    lots.order.erase(std::find(lots.order.begin(), lots.order.end(), 2));
    screen.settle();
    CHECK(screen.is_chosen("W24-3"));
    CHECK_FALSE(screen.is_chosen("W24-4"));
}

TEST_CASE("A table asks to be sorted, by pointer and by keys, once a time") {
    LotTable lots;
    int asked = 0;
    Screen screen([&] {
        lots.last = {};
        lots.draw();
        if (lots.last.sort_changed)
            ++asked;
    });
    screen.click("Stock");
    CHECK(asked == 1);
    CHECK(lots.state.sort == Sort{1, Direction::up});
    CHECK(screen.value_of("Stock") == "sorted up");
    screen.click("Stock");
    CHECK(lots.state.sort == Sort{1, Direction::down});
    screen.press(Key::tab);
    screen.press(Key::right);
    screen.press(Key::space);
    CHECK(lots.state.sort == Sort{0, Direction::up});
    CHECK(asked == 3);
}

TEST_CASE("An empty table says what to do first") {
    LotTable lots;
    lots.order.clear();
    Screen screen([&] { lots.draw(); });
    CHECK(screen.says("No lots yet: take in a delivery first."));
}

TEST_CASE(
    "Where the width does not do, the columns of the highest number give way, and come back with the room") {
    static const Column columns[]{
        {.head = "Lot", .sample = "W24-0000"},
        {.head = "Flour", .sample = "Strong white, stoneground", .gives_way = 1},
        {.head = "Mill", .sample = "Mill at the weir of the river", .gives_way = 2}};
    TableState state;
    Screen screen([&] {
        table({.name = "Lots",
               .columns = columns,
               .rows = 1,
               .record = [](std::size_t) { return std::int64_t{1}; },
               .write_row =
                   [](std::size_t, RowWriter& row) {
                       row.cell("W24-118");
                       row.cell("Strong white");
                       row.cell(Texture::usable, "Harrow Mill");
                   }},
              state);
    });
    CHECK(screen.value_of("W24-118") == "W24-118 | Strong white | Harrow Mill (usable)");
    screen.resize(400, 720);
    CHECK(screen.value_of("W24-118") == "W24-118 | Strong white");
    CHECK_FALSE(screen.offers("Mill"));
    screen.resize(250, 720);
    CHECK(screen.value_of("W24-118") == "W24-118");
    screen.resize(1280, 720);
    CHECK(screen.offers("Mill"));
}

TEST_CASE("What is typed in a table that takes it goes to its end, and Backspace takes a whole letter") {
    static const Column columns[]{{.head = "Lot", .sample = "W24-0000"}};
    TableState state;
    std::string typed;
    Screen screen([&] {
        table({.name = "Lots",
               .columns = columns,
               .rows = 1,
               .record = [](std::size_t) { return std::int64_t{1}; },
               .write_row = [](std::size_t, RowWriter& row) { row.cell("W24-118"); },
               .typed = &typed},
              state);
    });
    screen.type("lost");
    CHECK(typed.empty());
    screen.press(Key::tab);
    screen.type(" Mühle");
    CHECK(typed == "Mühle");
    for (int i = 0; i < 4; ++i)
        screen.press(Key::backspace);
    CHECK(typed == "M");
    screen.press(Key::backspace);
    screen.press(Key::backspace);
    CHECK(typed.empty());
}
