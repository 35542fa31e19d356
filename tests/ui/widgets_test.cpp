#include "support/catch.h"
#include "support/screen.h"
#include "ui/widgets/ui.h"

#include <string>
#include <vector>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::testing::NotOnScreen;
using mellowbin::testing::Screen;

namespace {

const Day monday = day_from_iso("2024-11-25");

/// A small form as screens write them.
struct LotForm {
    std::string code, moisture, remarks, milled_on;
    bool seal_whole = false;
    int kind = -1;
    Refusals refusals;
    int saved = 0, rejected = 0;
    std::string blocked;

    void draw() {
        static const std::vector<std::string> kinds{"White", "Wholemeal", "Rye", "Spelt", "Semolina"};
        form("Lot at hand", [&] {
            text_field({.label = "Lot code", .refusals = &refusals}, code);
            number_field({.label = "Moisture", .unit = "% as is", .refusals = &refusals}, moisture);
            date_field({.label = "Milled on"}, milled_on, monday);
            choice({.label = "Kind"}, kinds, kind);
            tick("Seal whole", seal_whole);
            notes_field({.label = "Remarks"}, remarks);
            if (button("Save lot", {.kind = ButtonKind::primary, .blocked = blocked}))
                ++saved;
            if (button("Reject lot", {.kind = ButtonKind::stop}))
                ++rejected;
        });
    }
};

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

TEST_CASE("A number typed with a comma stays as it was typed") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Moisture", "11,85");
    CHECK(lot.moisture == "11,85");
    CHECK(screen.field_value("Moisture") == "11,85");
    screen.type("Moisture", "abc");
    CHECK(lot.moisture == "abc");
    screen.type("Moisture", "");
    CHECK(lot.moisture.empty());
}

TEST_CASE("Letters beyond Latin-1 are kept and get a glyph when they are typed") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "Łódź Ω жито 12");
    CHECK(lot.code == "Łódź Ω жито 12");
    CHECK(screen.ui().can_show(lot.code));
    CHECK_FALSE(screen.ui().can_show("\xF0\x9F\xA5\x90")); // a croissant is in no text font
}

TEST_CASE("A thing is found by its words, and what is not there fails with all words on the screen") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Save lot");
    CHECK(lot.saved == 1);
    try {
        screen.click("Save the lot");
        FAIL("found what is not there");
    } catch (const NotOnScreen& refused) {
        CHECK_THAT(refused.what(), Catch::Contains("Save lot") && Catch::Contains("Moisture"));
    }
}

TEST_CASE("Words that are there twice are told apart by their place") {
    int first = 0, second = 0;
    Screen screen([&] {
        panel("Left", [&] {
            if (button("Go"))
                ++first;
        });
        panel("Right", [&] {
            if (button("Go"))
                ++second;
        });
    });
    CHECK_THROWS_AS(screen.click("Go"), NotOnScreen);
    screen.click("Right/Go");
    CHECK(first == 0);
    CHECK(second == 1);
}

TEST_CASE("A blocked button does nothing and says why") {
    LotForm lot;
    lot.blocked = "Give the lot code first";
    Screen screen([&] { lot.draw(); });
    CHECK(screen.says("Give the lot code first"));
    CHECK_FALSE(screen.is_enabled("Save lot"));
    screen.click("Save lot");
    CHECK(lot.saved == 0);
    screen.type("Lot code", "A");
    screen.press(Key::enter);
    CHECK(lot.saved == 0);
    lot.blocked.clear();
    screen.press(Key::enter);
    CHECK(lot.saved == 1);
}

TEST_CASE("A refusal stands at the field it is about") {
    LotForm lot;
    lot.refusals = {{"Moisture", "\"abc\" is not a number", "Enter it as 11,8 or 11.8"}};
    Screen screen([&] { lot.draw(); });
    const Note& refusal = screen.find("\"abc\" is not a number. Enter it as 11,8 or 11.8");
    CHECK(refusal.kind == Kind::refusal);
    CHECK(refusal.rect.top >= screen.find("Moisture").rect.bottom);
    CHECK(refusal.rect.bottom <= screen.find("Milled on").rect.top);
}

TEST_CASE("Tab reaches everything that can be pressed or typed into, and comes round") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    std::vector<std::string> visited;
    for (int i = 0; i < 10; ++i) {
        screen.press(Key::tab);
        visited.push_back(screen.focused());
    }
    const std::vector<std::string> expected{"Lot code",
                                            "Moisture",
                                            "Milled on",
                                            "Milled on: a day earlier",
                                            "Milled on: a day later",
                                            "Kind",
                                            "Seal whole",
                                            "Remarks",
                                            "Save lot",
                                            "Reject lot"};
    CHECK(visited == expected);
    screen.press(Key::tab);
    CHECK(screen.focused() == "Lot code");
    screen.press(Key::tab, Mods::shift);
    CHECK(screen.focused() == "Reject lot");
}

TEST_CASE("Tab passes a blocked button by") {
    LotForm lot;
    lot.blocked = "Not yet";
    Screen screen([&] { lot.draw(); });
    screen.click("Remarks");
    screen.press(Key::tab);
    CHECK(screen.focused() == "Reject lot");
}

TEST_CASE("Space and Enter press what has the focus, and Tab opens a field for typing") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.press(Key::tab);
    screen.type("W24-118");
    screen.press(Key::tab);
    screen.type("11,8");
    CHECK(lot.code == "W24-118");
    CHECK(lot.moisture == "11,8");
    screen.press(Key::tab, Mods::shift);
    screen.press(Key::tab, Mods::shift); // back round to the last one
    CHECK(screen.focused() == "Reject lot");
    screen.press(Key::space);
    CHECK(lot.rejected == 1);
    screen.press(Key::enter);
    CHECK(lot.rejected == 2);
    CHECK(lot.saved == 0);
}

TEST_CASE("Enter in a field is the form's main action; in remarks it is a new line") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "W24-118");
    screen.press(Key::enter);
    CHECK(lot.saved == 1);
    screen.type("Remarks", "wet sack");
    screen.press(Key::enter);
    screen.type("see photo");
    CHECK(lot.remarks == "wet sack\nsee photo");
    CHECK(lot.saved == 1);
}

TEST_CASE("Enter in a field of one form leaves the other form alone") {
    LotForm here, there;
    Screen screen([&] {
        scope("Here", [&] { here.draw(); });
        scope("There", [&] { there.draw(); });
    });
    screen.type("There/Lot at hand/Lot code", "B");
    screen.press(Key::enter);
    CHECK(here.saved == 0);
    CHECK(there.saved == 1);
}

TEST_CASE("Escape leaves a field without losing what was typed") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "W24-118");
    screen.press(Key::escape);
    CHECK(lot.code == "W24-118");
    CHECK(screen.field_value("Lot code") == "W24-118");
}

TEST_CASE("A scanner's characters and its Enter, all at once, lose nothing") {
    std::string scan;
    std::vector<std::string> scans;
    Screen screen([&] {
        if (search_field({.label = "Scan"}, scan).entered) {
            scans.push_back(scan);
            scan.clear();
        }
    });
    screen.click("Scan");
    for (const char* code : {"0109501101530003", "10W24-118"}) {
        for (const char* c = code; *c; ++c)
            screen.ui().typed(std::string(1, *c));
        screen.ui().pressed(Key::enter);
    }
    screen.settle();
    CHECK(scans == std::vector<std::string>{"0109501101530003", "10W24-118"});
}

TEST_CASE("A scanner that sends Tab and Enter fills a form field by field, then saves it") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Lot code");
    screen.ui().typed("W24-118");
    screen.ui().pressed(Key::tab);
    screen.ui().typed("11,8");
    screen.ui().pressed(Key::enter);
    screen.settle();
    CHECK(lot.code == "W24-118");
    CHECK(lot.moisture == "11,8");
    CHECK(lot.saved == 1);
}

TEST_CASE("A form that the program empties stays empty, even the field that is being typed into") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "W24-118");
    lot.code.clear();
    screen.settle();
    CHECK(screen.field_value("Lot code").empty());
    screen.type("W24-119");
    CHECK(lot.code == "W24-119");
}

TEST_CASE("The first empty field gets the focus when a form opens") {
    LotForm lot;
    lot.code = "W24-118";
    bool opens = true;
    Screen screen([&] {
        if (opens)
            focus_first_empty_field();
        opens = false;
        lot.draw();
    });
    CHECK(screen.focused() == "Moisture");
    screen.type("11.8");
    CHECK(lot.moisture == "11.8");
}

TEST_CASE("A day is typed, or stepped from today") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Milled on: a day earlier");
    CHECK(lot.milled_on == "2024-11-25");
    screen.click("Milled on: a day earlier");
    CHECK(lot.milled_on == "2024-11-24");
    screen.click("Milled on: a day later");
    CHECK(lot.milled_on == "2024-11-25");
    screen.type("Milled on", "25.11.24");
    CHECK_FALSE(screen.is_enabled("Milled on: a day later"));
    screen.click("Milled on: a day later");
    CHECK(lot.milled_on == "25.11.24");
}

TEST_CASE("A choice of many opens a list; the pointer, the arrows and Escape work it") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Kind");
    screen.click("Spelt");
    CHECK(lot.kind == 3);
    CHECK(screen.value_of("Kind") == "Spelt");
    CHECK_FALSE(screen.offers("Rye")); // the list is closed
    screen.press(Key::down);
    CHECK(lot.kind == 4);
    screen.press(Key::space);
    REQUIRE(screen.offers("Rye"));
    screen.press(Key::up);
    screen.press(Key::up);
    screen.press(Key::enter);
    CHECK(lot.kind == 2);
    screen.press(Key::space);
    screen.press(Key::up);
    screen.press(Key::escape);
    CHECK(lot.kind == 2);
    CHECK_FALSE(screen.offers("Wholemeal"));
}

TEST_CASE("A choice of few stands side by side") {
    int verdict = 0;
    const std::vector<std::string> verdicts{"Hold", "Release", "Reject"};
    Screen screen([&] { choice({.label = "Verdict"}, verdicts, verdict); });
    screen.click("Release");
    CHECK(verdict == 1);
    CHECK(screen.is_chosen("Release"));
    screen.press(Key::right);
    CHECK(verdict == 2);
}

TEST_CASE("Escape in a dialog is the harmless answer, and nothing behind it can be pressed") {
    bool asking = false;
    Answer answer = Answer::none_yet;
    LotForm lot;
    Screen screen([&] {
        lot.draw();
        if (button("Ask"))
            asking = true;
        if (!asking)
            return;
        answer = ask({"Reject lot W24-118?", "Keep lot", "Reject it", ButtonKind::stop});
        if (answer != Answer::none_yet)
            asking = false;
    });
    screen.click("Ask");
    REQUIRE(screen.says("Reject lot W24-118?"));
    CHECK(screen.focused() == "Keep lot");
    CHECK_THROWS_WITH(screen.click("Save lot"), Catch::Contains("covered"));
    CHECK(lot.saved == 0);
    screen.press(Key::tab);
    CHECK(screen.focused() == "Reject it");
    screen.press(Key::tab);
    CHECK(screen.focused() == "Keep lot"); // the ring stays within the dialog

    screen.press(Key::escape);
    CHECK(answer == Answer::harmless);
    CHECK_FALSE(screen.says("Reject lot W24-118?"));
    CHECK(screen.focused() == "Ask"); // where the person was

    screen.press(Key::space);
    screen.click("Reject it");
    CHECK(answer == Answer::deed);
}

TEST_CASE("A dialog's field is ready for typing, and Enter in it does the deed once it may be done") {
    std::string reason;
    bool asking = true;
    Answer answer = Answer::none_yet;
    Screen screen([&] {
        button("Behind");
        if (!asking)
            return;
        answer = ask({.title = "Hold lot W24-118?",
                      .harmless = "Leave it",
                      .deed = "Hold lot",
                      .deed_blocked = reason.empty() ? "Give a reason" : ""},
                     [&] { text_field({.label = "Reason"}, reason); });
        if (answer != Answer::none_yet)
            asking = false;
    });
    CHECK(screen.focused() == "Reason");
    screen.press(Key::enter);
    CHECK(asking);
    screen.type("wet sacks");
    screen.press(Key::enter);
    CHECK(answer == Answer::deed);
    CHECK(reason == "wet sacks");
}

TEST_CASE("A failure says what it means and keeps its details folded, for copying") {
    bool shown = true;
    Screen screen([&] {
        if (shown && failure_box({"The book could not be written", "The lot was not taken in.",
                                  "Free some space.", "disk full, line 42"}))
            shown = false;
    });
    CHECK(screen.says("The lot was not taken in."));
    CHECK_FALSE(screen.says("disk full, line 42"));
    screen.click("Show details");
    CHECK(screen.says("disk full, line 42"));
    screen.press(Key::escape);
    CHECK_FALSE(shown);
}

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

TEST_CASE("What a scroll area hides is scrolled to before it is pressed") {
    int pressed = 0;
    Screen screen([&] {
        scroll_area("Long", 10_em, [&] {
            for (int i = 0; i < 40; ++i)
                scope(i, [&] { text("line"); });
            if (button("At the end"))
                ++pressed;
        });
    });
    CHECK_FALSE(screen.says("At the end"));
    screen.click("At the end");
    CHECK(pressed == 1);
}

TEST_CASE("Panes stand side by side where there is room, else under each other, and nothing is lost") {
    const auto draw = [] {
        panes({{"A", 1, 18_em, [] { button("First"); }}, {"B", 1, 18_em, [] { button("Second"); }}});
    };
    Screen screen(draw);
    CHECK(screen.find("First").rect.top == screen.find("Second").rect.top);
    screen.text_size(2);
    CHECK(screen.find("Second").rect.left >= screen.find("First").rect.right);
    screen.resize(900, 720);
    CHECK(screen.find("Second").rect.top >= screen.find("First").rect.bottom);
    screen.click("Second");
}

TEST_CASE("Everything that can be touched is 44 px high, on the mixer 64, and grows with the text size") {
    LotForm lot;
    bool mixer = false;
    Screen screen([&] {
        if (mixer)
            large([&] { lot.draw(); });
        else
            lot.draw();
    });
    const auto least = [&] {
        float lowest = 1000;
        for (const Note& note : screen.probe().notes())
            if (is_interactive(note.kind))
                lowest = std::min(lowest, note.rect.height());
        return lowest;
    };
    CHECK(least() >= 44);
    screen.text_size(2);
    CHECK(least() >= 88);
    screen.text_size(1);
    mixer = true;
    screen.settle();
    CHECK(least() >= 64);
}

TEST_CASE(
    "The rail answers to the pointer, to function keys and to Ctrl with a digit, but not behind a dialog") {
    int current = 0;
    bool asking = false;
    const RailItem rail[]{{"Intake", "F1", "3 to judge"}, {"Lots", "F2"}, {"Readiness", "F3"}};
    Screen screen([&] {
        const auto events = workbench(rail, current, {.day_and_time = "Mon 25 Nov 09:14"}, {}, [&] {
            if (asking && ask({"Leave?", "Stay", "Leave"}) != Answer::none_yet)
                asking = false;
        });
        if (events.screen)
            current = *events.screen;
    });
    CHECK(screen.value_of("Intake") == "3 to judge");
    screen.click("Lots");
    CHECK(current == 1);
    screen.press(Key::f3);
    CHECK(current == 2);
    screen.press(Key::digit_1, Mods::ctrl);
    CHECK(current == 0);
    asking = true;
    screen.settle();
    screen.press(Key::f2);
    CHECK(current == 0);
}

TEST_CASE("What was just done is said with its undo") {
    WorkbenchEvents last;
    const RailItem rail[]{{"Intake"}};
    Screen screen([&] {
        const auto events = workbench(rail, 0, {.day_and_time = "Mon 25 Nov 09:14"},
                                      {"Lot W24-118 taken in", Role::good, "Undo: withdraw W24-118"}, [] {});
        if (events.undo || events.notice_put_away)
            last = events;
    });
    CHECK(screen.says("Lot W24-118 taken in"));
    screen.click("Undo: withdraw W24-118");
    CHECK(last.undo);
    screen.click("Put away");
    CHECK(last.notice_put_away);
}

TEST_CASE("Each role reads on its panel as the look asks: WCAG contrast") {
    // Ratios by the formula of WCAG 2.1, of the colours chosen; 4.5 is its least for text (1.4.3).
    struct Asked {
        Role role;
        double light, dark;
    };
    static constexpr Asked asked[]{{Role::ink, 14.8, 12.7}, {Role::quiet, 5.9, 6.8}, {Role::accent, 7.4, 7.9},
                                   {Role::good, 6.2, 8.3},  {Role::mind, 6.5, 7.1},  {Role::stop, 6.9, 6.4},
                                   {Role::model, 7.4, 7.1}};
    for (const Asked& a : asked) {
        CAPTURE(static_cast<int>(a.role));
        const double light = contrast(colour(Palette::light, a.role), colour(Palette::light, Role::panel));
        const double dark = contrast(colour(Palette::dark, a.role), colour(Palette::dark, Role::panel));
        CHECK(light == Approx(a.light).margin(0.06));
        CHECK(dark == Approx(a.dark).margin(0.06));
        CHECK(contrast(colour(Palette::light, a.role), colour(Palette::light, Role::ground)) >= 4.5);
        CHECK(contrast(colour(Palette::dark, a.role), colour(Palette::dark, Role::ground)) >= 4.5);
        CHECK(contrast(colour(Palette::light, a.role), colour(Palette::light, Role::raised)) >= 4.5);
        CHECK(contrast(colour(Palette::dark, a.role), colour(Palette::dark, Role::raised)) >= 4.5);
    }
    CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21));
}

TEST_CASE("Every sign the widgets write has a glyph") {
    Screen screen([] { text("°C µ ½ × · – … ≤ ≥ → ‰ − ✓ ✕ ▲ ≈ ₂ ⁻⁴ •"); });
    for (const Role role : every_role)
        CHECK(screen.ui().can_show(sign(role)));
    CHECK(screen.ui().can_show("°C µ ½ × · – … ≤ ≥ → ‰ − ✓ ✕ ▲ ≈ ₂ ⁻⁴ •"));
}

TEST_CASE("At 200 % no words of a form stand on others, and the longest button still shows all its words") {
    LotForm lot;
    lot.refusals = {{"Lot code", "W24-118 is already in the book", "Look at the label once more"}};
    Screen screen([&] { panel("Lot at hand", [&] { grid(13_em, [&] { lot.draw(); }); }); });
    for (const float size : {1.0f, 1.5f, 2.0f}) {
        screen.text_size(size);
        const auto& notes = screen.probe().notes();
        for (std::size_t i = 0; i < notes.size(); ++i)
            for (std::size_t k = i + 1; k < notes.size(); ++k) {
                const Rect &a = notes[i].rect, &b = notes[k].rect;
                const bool apart = a.right <= b.left + 1 || b.right <= a.left + 1 || a.bottom <= b.top + 1 ||
                                   b.bottom <= a.top + 1;
                CAPTURE(size, notes[i].label, notes[k].label);
                CHECK(apart);
            }
    }
}

TEST_CASE("Work that runs says how far it is and can be stopped") {
    int stopped = 0;
    Screen screen([&] {
        if (progress({.label = "Planning 14 days",
                      .words = "1204 nodes · 12 s · gap 1.4 %",
                      .stop_verb = "Stop and keep the best"}))
            ++stopped;
    });
    CHECK(screen.says("1204 nodes · 12 s · gap 1.4 %"));
    screen.click("Stop and keep the best");
    CHECK(stopped == 1);
}
