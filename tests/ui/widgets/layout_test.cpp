#include "support/catch.h"
#include "support/contrast.h"
#include "support/interactive.h"
#include "support/screen.h"
#include "ui/views/lot_at_hand.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::test::LotForm;
using mellowbin::testing::Screen;

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

TEST_CASE(
    "Words keep their contrast on tints, and what stands on a solid ground or on the notice reads, too") {
    // 4.5 is the least of WCAG 2.1 for text (1.4.3). Tints lie up to 14 % of a role over the panel.
    constexpr double strongest = 0.14;
    for (const Palette palette : {Palette::light, Palette::dark}) {
        const Colour panel = colour(palette, Role::panel);
        for (const Role role : {Role::accent, Role::good, Role::mind, Role::stop, Role::model}) {
            CAPTURE(static_cast<int>(palette), static_cast<int>(role));
            const Colour own = colour(palette, role);
            const auto between = [&](std::uint8_t from, std::uint8_t to) {
                return static_cast<std::uint8_t>(std::lround(from + (to - from) * strongest));
            };
            const Colour tint{between(panel.r, own.r), between(panel.g, own.g), between(panel.b, own.b)};
            for (const Role words : {role, Role::ink, Role::quiet})
                CHECK(contrast(colour(palette, words), tint) >= 4.5);
            CHECK(contrast(panel, own) >= 4.5);
        }
        CHECK(contrast(panel, colour(palette, Role::ink)) >= 4.5);
    }
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

TEST_CASE("What fills its place keeps its height while the place is scrolled") {
    TableState state;
    Screen screen([&] {
        scroll_area("Long", 30_em, [&] {
            static const Column columns[]{{.head = "Lot"}};
            table({.name = "Lots",
                   .columns = columns,
                   .rows = 2,
                   .record = [](std::size_t i) { return static_cast<std::int64_t>(i); },
                   .write_row = [](std::size_t, RowWriter& row) { row.cell("W24-118"); }},
                  state);
            for (int i = 0; i < 40; ++i)
                scope(i, [&] { text("line"); });
        });
    });
    const auto height = [&] { return screen.find("Lots").rect.height(); };
    const float before = height();
    const float top = screen.find("Lots").rect.top;
    screen.point_at(300, 100);
    screen.ui().wheel_turned(-3);
    screen.settle();
    REQUIRE(screen.find("Lots").rect.top < top);
    CHECK(height() == before);
}

TEST_CASE("A fact whose label takes two lines keeps the next one below both") {
    Screen screen([] {
        stack(20_em, [] {
            fact({.label = "Rise of the maturing rate over 10 °C", .value = "2.1", .note = "published"});
            fact({.label = "Air", .value = "1.0", .note = "assumed"});
        });
    });
    const float line = screen.find("Air").rect.height();
    CHECK(screen.find("Rise of the maturing rate over 10 °C").rect.height() > 1.5F * line);
}
