#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/outlook.h"
#include "app/models/overview.h"
#include "app/models/readiness.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/screen.h"
#include "ui/models/plan.h"
#include "ui/views/readiness/band.h"
#include "ui/views/readiness/view.h"

#include <fmt/format.h>

using namespace mellowbin;
using testing::Screen;
using ui::Key;

namespace {

/// The screen with its model, and all that was asked of the application.
struct Opened {
    app::ReadinessModel model = test::six_lots();
    views::ReadinessView view;
    app::Notice notice;
    app::Overview overview;
    app::Intents asked;
    Screen screen{[this] { draw(view, model, notice, overview, asked); }};

    template <class T> std::vector<T> all() const {
        std::vector<T> found;
        for (const auto& intent : asked)
            if (const auto* one = intent.as<T>())
                found.push_back(*one);
        return found;
    }
    /// Lots on the screen from top to bottom.
    std::vector<std::string> rows() const {
        std::vector<std::string> codes;
        for (const auto& note : screen.probe().notes())
            if (note.kind == ui::Kind::row)
                codes.push_back(note.label);
        return codes;
    }
    /// Pixels of a day on the axis of the chart.
    float pixels_of_a_day() {
        const auto before = screen.find("today").rect;
        view.axis.today += 1;
        screen.settle();
        const auto behind = screen.find("today").rect;
        view.axis.today -= 1;
        screen.settle();
        return behind.left - before.left;
    }
};

} // namespace

TEST_CASE("Without flour Readiness says what to do first") {
    Opened o;
    o.model.rows.clear();
    o.model.ticks.clear();
    o.screen.settle();
    CHECK(o.screen.says("Take in a delivery on Intake"));
}

TEST_CASE("A lot that is chosen is opened and its words are read beside the chart") {
    Opened o;
    o.screen.click("B26-044");
    REQUIRE(o.all<app::OpenLot>().size() == 1);
    CHECK(o.all<app::OpenLot>()[0].lot == LotId{4});
    CHECK(o.screen.says("Ready. Ready from Sat 21 Nov (80 %)"));
    CHECK(o.screen.says("Mature on Wed 25 Nov with a probability of 97 %"));
    CHECK(
        o.screen.says("Wanted by Bun, Line 2: 850 kg, Thu 26 Nov; Pan bread, Line 1: 1 200 kg, Sat 28 Nov"));
}

TEST_CASE("Held flour says so before how ready it is") {
    Opened o;
    o.screen.click("H26-019");
    CHECK(o.screen.says("On hold, ready"));
}

TEST_CASE("The filter keeps the lots in which every word is found, in any case") {
    Opened o;
    o.screen.type("Filter", "bread WHITE");
    CHECK(o.rows() == std::vector<std::string>{"B26-031", "B26-044"});
    o.screen.type("Filter", "on hold");
    CHECK(o.rows() == std::vector<std::string>{"H26-019"});
    o.screen.type("Filter", "rye");
    CHECK(o.rows().empty());
    CHECK(o.screen.says("No lot holds these words"));
}

TEST_CASE("The filter finds the advice in its words, and results that ask for a check") {
    Opened o;
    o.screen.type("Filter", "wait");
    CHECK(o.rows() == std::vector<std::string>{"W26-127", "W26-131"});
    o.screen.type("Filter", "use first");
    CHECK(o.rows() == std::vector<std::string>{"B26-031"});
    o.screen.type("Filter", "check");
    CHECK(o.rows() == std::vector<std::string>{"W26-127"});
    o.model.rows[1].asks_check = false;
    o.model.rows[2].asks_check = true;
    o.screen.settle();
    CHECK(o.rows() == std::vector<std::string>{"B26-044"});
}

TEST_CASE("A row says its advice with a sign, its evidence, and how much of its storage was measured") {
    Opened o;
    o.screen.settle();
    CHECK_THAT(o.screen.value_of("B26-031"),
               Catch::Contains("use first | 2 results | 50 % measured") &&
                   Catch::Contains("Use first: Its best days end on Wed 9 Dec."));
    CHECK_THAT(o.screen.value_of("W26-131"), Catch::Contains("○ wait | 2 results | 25 % measured"));
    CHECK_THAT(o.screen.value_of("W26-127"), Catch::Contains("○ wait | 1 result, check"));
    CHECK_THAT(o.screen.value_of("B26-044"), Catch::Contains("use | no results"));
    CHECK_THAT(o.screen.value_of("H26-019"), Catch::Contains("hold | 3 results"));
}

TEST_CASE("The table tells advice, results and measured storage, and sorts by them") {
    Opened o;
    o.screen.click("Show as table");
    CHECK_THAT(o.screen.value_of("W26-127"),
               Catch::StartsWith("W26-127 | ○ wait") && Catch::EndsWith("1, check | 0"));
    o.screen.click("Advice");
    CHECK(o.rows().front() == "B26-031");
    CHECK(o.rows().back() == "M26-007");
    o.screen.click("Results");
    CHECK(o.rows().front() == "W26-127"); // the one with a result to check
    o.screen.click("Measured");
    CHECK(o.rows().front() == "W26-127");
    CHECK(o.rows().back() == "B26-044");
}

TEST_CASE("The order is by flour, ready first or youngest") {
    Opened o;
    o.screen.settle();
    CHECK(o.rows().front() == "B26-031");
    CHECK(o.rows()[2] == "H26-019");
    o.screen.click("Ready first");
    CHECK(o.rows().front() == "B26-031"); // the one to use first
    CHECK(o.rows().back() == "M26-007");  // past its best
    o.screen.click("Youngest");
    CHECK(o.rows().front() == "W26-131");
}

TEST_CASE("A flour's head counts its lots by their states, and folds them away by press and by key") {
    Opened o;
    o.screen.settle();
    const auto all = o.rows();
    const auto flour = o.model.rows.front().flour;
    int lots = 0, young = 0;
    for (const auto& row : o.model.rows) {
        lots += row.flour == flour ? 1 : 0;
        young += row.flour == flour && row.now == app::Readiness::young ? 1 : 0;
    }
    CHECK_THAT(o.screen.value_of(flour), Catch::StartsWith(fmt::format("{} lot", lots)));
    if (young > 0)
        CHECK_THAT(o.screen.value_of(flour), Catch::Contains(fmt::format("{} young", young)));
    o.screen.click(flour);
    CHECK(o.rows().size() == all.size() - static_cast<std::size_t>(lots));
    CHECK(o.all<app::OpenLot>().empty());
    o.screen.click(flour);
    CHECK(o.rows() == all);

    for (int i = 0; i < 20 && !o.screen.is_focused("Readiness"); ++i)
        o.screen.press(Key::tab);
    o.screen.press(Key::home); // the first head
    o.screen.press(Key::enter);
    CHECK(o.rows().size() < all.size());
    CHECK(o.all<app::OpenLot>().empty());
    o.screen.press(Key::enter);
    CHECK(o.rows() == all);
}

TEST_CASE("A head says how many lots become ready within the week") {
    Opened o;
    auto& row = o.model.rows.front();
    row.now = app::Readiness::usable;
    row.ready_at_confidence = o.model.as_of + Days{5};
    o.screen.settle();
    CHECK_THAT(o.screen.value_of(row.flour), Catch::Contains("1 ready within a week"));
}

TEST_CASE("Band, state and words go by the same days: solid only from the day that is promised") {
    app::ReadinessModel model = test::six_lots();
    for (const auto& row : model.rows) {
        views::LotBand drawn;
        ui::BandRow band;
        drawn.fill(row, model, band);
        INFO(row.code);
        for (const auto& span : band.spans) {
            const bool is_ready = span.texture == ui::Texture::ready;
            if (is_ready && row.ready_at_confidence && *row.ready_at_confidence > row.delivered_on)
                CHECK(span.from == ui::day_number(*row.ready_at_confidence));
            if (span.texture == ui::Texture::past_best && row.past_best_at_confidence > row.delivered_on)
                CHECK(span.from == ui::day_number(*row.past_best_at_confidence));
        }
    }
}

TEST_CASE("Today's line looks ahead when it is dropped, not while it is dragged") {
    Opened o;
    o.screen.settle();
    const float day = o.pixels_of_a_day();
    REQUIRE(day > 4);
    o.screen.drag("today", day * 9, 0);
    REQUIRE(o.all<app::ShowAsOf>().size() == 1);
    const auto ahead = (o.all<app::ShowAsOf>()[0].day - test::plan_today()).count();
    CHECK(ahead >= 8);
    CHECK(ahead <= 10);
}

TEST_CASE("Today's line moves by key as well") {
    Opened o;
    o.screen.settle();
    for (int i = 0; i < 20 && !o.screen.is_focused("today"); ++i)
        o.screen.press(Key::tab);
    REQUIRE(o.screen.is_focused("today"));
    o.screen.press(Key::right);
    REQUIRE(o.all<app::ShowAsOf>().size() == 1);
    CHECK(o.all<app::ShowAsOf>()[0].day == test::plan_today() + Days{1});
}

TEST_CASE("A day that is typed is looked at; one that is none is refused beside the field") {
    Opened o;
    o.screen.type("Look at day", "2026-12-24");
    REQUIRE_FALSE(o.all<app::ShowAsOf>().empty());
    CHECK(o.all<app::ShowAsOf>().back().day == day_from_iso("2026-12-24"));
    o.asked.clear();
    o.screen.type("Look at day", "24.12.26");
    CHECK(o.all<app::ShowAsOf>().empty());
    CHECK(o.screen.says("a date such as"));
    CHECK(o.screen.field_value("Look at day") == "24.12.26");
}

TEST_CASE("Looking at another day, a button leads back to today") {
    Opened o;
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Back to today"));
    o.model.as_of += Days{30};
    o.screen.settle();
    o.screen.click("Back to today");
    REQUIRE(o.all<app::ShowAsOf>().size() == 1);
    CHECK(o.all<app::ShowAsOf>()[0].day == test::plan_today());
}

TEST_CASE("The table tells the facts of the chart, and sorts by a head") {
    Opened o;
    o.screen.click("Show as table");
    CHECK(o.screen.value_of("B26-044").find("12 800") != std::string::npos);
    CHECK(o.screen.value_of("B26-044").find("97") != std::string::npos);
    CHECK(o.screen.value_of("B26-044").find("Sat 21 Nov") != std::string::npos);
    o.screen.click("Stock");
    CHECK(o.rows().front() == "M26-007");
    o.screen.click("Stock");
    CHECK(o.rows().front() == "B26-044");
    o.screen.click("H26-019");
    CHECK(o.all<app::OpenLot>().back().lot == LotId{3});
}

TEST_CASE("Lots are reached by key") {
    Opened o;
    o.screen.click("Ready first");
    for (int i = 0; i < 20 && !o.screen.is_focused("Readiness"); ++i)
        o.screen.press(Key::tab);
    REQUIRE(o.screen.is_focused("Readiness"));
    o.screen.press(Key::down);
    o.screen.press(Key::down);
    CHECK(o.all<app::OpenLot>().size() == 2);
    CHECK(o.all<app::OpenLot>().back().lot == LotId{3});
}

TEST_CASE("A lot that changes its readiness takes its new place") {
    Opened o;
    o.screen.click("Ready first");
    o.model.rows[0].now = app::Readiness::use_first;
    o.model.rows[0].past_best_at_confidence = test::plan_today();
    o.screen.settle();
    CHECK(o.rows().front() == "W26-131");
}

TEST_CASE("A band fades at the quantiles of a normal spread on either side of the likely day") {
    const Day day = test::plan_today();
    // Quantiles of the standard normal curve: 0.6745 at 75 %, 1.2816 at 90 %, 1.6449 at 95 % (any table of
    // it).
    const auto fade = views::fade_of({day - Days{4}, day, day + Days{8}});
    REQUIRE(fade);
    CHECK(fade->q50 == ui::day_number(day));
    CHECK(fade->q05 == Approx(ui::day_number(day) - 5.134).margin(0.01));
    CHECK(fade->q25 == Approx(ui::day_number(day) - 2.105).margin(0.01));
    CHECK(fade->q75 == Approx(ui::day_number(day) + 4.210).margin(0.01));
    CHECK(fade->q95 == Approx(ui::day_number(day) + 10.27).margin(0.01));
    CHECK_FALSE(views::fade_of({day, {}, {}}));
}
