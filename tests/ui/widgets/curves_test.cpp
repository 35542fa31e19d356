#include "support/catch.h"
#include "support/iso.h"
#include "support/screen.h"
#include "ui/widgets/ui.h"

#include <vector>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::testing::Screen;

namespace {

const Day monday = day_from_iso("2024-11-25");
const double today = day_number(monday);

/// Two curves under each other over the same 40 days; the second one ends earlier.
struct TwoCurves {
    std::vector<CurvePoint> maturity{{today - 10, 0.1, 0.2, 0.3}, {today + 30, 0.5, 0.6, 0.7}};
    std::vector<CurvePoint> air{{today - 10, 16, 18, 21, Known::measured},
                                {today - 5, 16, 18, 21, Known::measured},
                                {today, 15, 20, 25, Known::assumed},
                                {today + 10, 15, 20, 25, Known::assumed}};
    std::vector<CurveMark> marks{{today - 8, 322, "17 Nov: 322 EU, Bay 2"},
                                 {today - 1, 410, "24 Nov: 410 EU, Bay 2", MarkShape::asks_check}};
    std::optional<double> looked_at;
    std::optional<double> first_day = today - 10, last_day = today + 30;

    void draw() {
        const auto events = curve({.name = "Maturity",
                                   .y_axis = "maturity, 0 to 1",
                                   .y_from = 0,
                                   .y_to = 1,
                                   .first_day = first_day,
                                   .last_day = last_day,
                                   .points = maturity,
                                   .today = today,
                                   .looked_at = looked_at});
        const auto below = curve({.name = "Temperature",
                                  .y_axis = "temperature",
                                  .unit = "°C",
                                  .decimals = 1,
                                  .first_day = first_day,
                                  .last_day = last_day,
                                  .points = air,
                                  .today = today,
                                  .looked_at = looked_at});
        curve_legend(air, marks, "10 to 90 %");
        curve({.name = "Resistance",
               .y_axis = "resistance",
               .unit = "EU",
               .decimals = 0,
               .first_day = first_day,
               .last_day = last_day,
               .marks = marks,
               .today = today});
        looked_at = events.day_under_pointer ? events.day_under_pointer : below.day_under_pointer;
    }
};

} // namespace

TEST_CASE("A course says today's value with its band") {
    CurvePoint points[]{{today - 10, 0.1, 0.2, 0.3}, {today + 10, 0.5, 0.6, 0.7}};
    Screen screen([&] {
        curve(
            {.name = "Maturity of W24-118", .y_axis = "maturity, 0 to 1", .points = points, .today = today});
    });
    CHECK(screen.value_of("Maturity of W24-118") ==
          "25 Nov: 0.40 (0.30 – 0.50)"); // halfway between both points
}

TEST_CASE("A value tells its unit, its band, and whether it was measured or assumed") {
    TwoCurves curves;
    Screen screen([&] { curves.draw(); });
    CHECK(screen.says("temperature, °C"));
    CHECK(screen.value_of("Temperature") == "25 Nov: 20.0 °C (15.0 – 25.0), assumed");
    curves.air[2].known = Known::measured;
    screen.settle();
    CHECK(screen.value_of("Temperature") == "25 Nov: 20.0 °C (15.0 – 25.0), measured");
    for (auto& point : curves.air)
        point.low = point.high = point.likely = 60;
    screen.settle();
    CHECK(screen.value_of("Temperature") == "25 Nov: 60.0 °C, measured"); // no band: one value
}

TEST_CASE("The day under the pointer in one curve is told in the curves that share its axis") {
    TwoCurves curves;
    Screen screen([&] { curves.draw(); });
    const Rect plot = screen.find("Maturity").rect;
    const float y = (plot.top + plot.bottom) / 2;
    screen.point_at(plot.left + plot.width() * 0.4F, y);
    REQUIRE(curves.looked_at);
    const auto day = *curves.looked_at;
    CHECK(day > today - 10);
    CHECK(day < today + 10);
    const auto words = screen.value_of("Temperature");
    CHECK(screen.value_of("Maturity").substr(0, 6) == words.substr(0, 6)); // "28 Nov"
    CHECK(words.substr(0, 6) != "25 Nov");
    screen.ui().pointer_left();
    screen.settle();
    CHECK(screen.value_of("Temperature").starts_with("25 Nov"));
}

TEST_CASE("Curves over the same days stand in line, however many digits their values take") {
    TwoCurves curves;
    Screen screen([&] { curves.draw(); });
    std::vector<float> lefts;
    for (const auto& note : screen.probe().notes())
        if (note.label == "2 Dec" || note.label == "9 Dec")
            lefts.push_back(note.rect.left);
    REQUIRE(lefts.size() >= 6); // two Mondays under each of the three curves
    CHECK(lefts[0] == lefts[2]);
    CHECK(lefts[0] == lefts[4]);
}

TEST_CASE("A curve says nothing of days it has no value for") {
    TwoCurves curves;
    Screen screen([&] { curves.draw(); });
    curves.looked_at = today + 20; // behind the last day of the air
    screen.frame();
    CHECK(screen.value_of("Temperature").starts_with("25 Nov"));
    CHECK(screen.value_of("Maturity").starts_with("15 Dec"));
    // Nor of a space between two of its days.
    curves.air = {{today - 10, 60, 60, 60}, {today + 10, 60, 60, 60}};
    curves.air[1].is_apart = true;
    screen.settle();
    CHECK(screen.value_of("Temperature").empty());
}

TEST_CASE("A legend names what is drawn, with the days that were measured and assumed") {
    TwoCurves curves;
    Screen screen([&] { curves.draw(); });
    CHECK(screen.says("measured: 15 Nov to 20 Nov"));
    CHECK(screen.says("assumed: 25 Nov to 5 Dec"));
    CHECK_FALSE(screen.says("estimate, 10 to 90 %"));
    CHECK(screen.says("a result that asks for a check"));
    curves.marks.pop_back();
    screen.settle();
    CHECK_FALSE(screen.says("a result that asks for a check"));
}

TEST_CASE("A mark that asks for a check says so in a word, not by its colour alone") {
    TwoCurves curves;
    Screen screen([&] { curves.draw(); });
    CHECK(screen.says("17 Nov: 322 EU, Bay 2"));
    CHECK_FALSE(screen.says("17 Nov: 322 EU, Bay 2, asks for a check"));
    CHECK(screen.says("24 Nov: 410 EU, Bay 2, asks for a check"));
}

TEST_CASE("A curve without a value says so") {
    Screen screen(
        [] { curve({.name = "Humidity", .y_axis = "humidity", .today = today, .when_empty = "not known"}); });
    CHECK(screen.value_of("Humidity") == "not known");
}

TEST_CASE("Many stretches are named up to three, the others counted") {
    std::vector<CurvePoint> points;
    for (int day = 0; day < 10; ++day)
        points.push_back({today + day, 1, 1, 1, day % 2 == 0 ? Known::measured : Known::assumed});
    CHECK(days_known(points, Known::measured) == "25 Nov, 27 Nov, 29 Nov and 2 more times");
    CHECK(days_known(points, Known::estimate).empty());
    points.resize(8);
    CHECK(days_known(points, Known::assumed) == "26 Nov, 28 Nov, 30 Nov and 1 more time");
}

TEST_CASE("An axis begins and ends at round steps around its values") {
    const auto ends = [](double least, double greatest) {
        const auto range = round_range(least, greatest);
        return std::vector{range.from, range.to, range.step};
    };
    CHECK(ends(0, 1) == std::vector<double>{0, 1, 0.2});
    CHECK(ends(322, 410) == std::vector<double>{320, 420, 20});
    CHECK(ends(-3.2, 24.1)[0] == Approx(-10));
    CHECK(ends(-3.2, 24.1)[1] == Approx(30));
    // One value alone stands within its axis, zero and a negative one, too.
    for (const double value : {60.0, 0.0, -12.5}) {
        const auto range = round_range(value, value);
        CHECK(range.from < value);
        CHECK(range.to > value);
    }
    const auto nothing = round_range(1e300 * 1e10, -1e300 * 1e10); // of no value at all
    CHECK(nothing.to > nothing.from);
}

TEST_CASE("Remarks stand under a lot's label, with their signs, and are told") {
    TimeAxis axis{.from = today - 14, .days = 42, .today = today};
    const BandRemark remarks[]{{"use first", Role::mind}, {"2 results"}};
    Screen screen([&] {
        band_chart({.name = "Readiness",
                    .rows = 1,
                    .record = [](std::size_t) { return std::int64_t{1}; },
                    .fill_row =
                        [&](std::size_t, BandRow& row) {
                            row = {.label = "W24-118",
                                   .aside = "83 % measured",
                                   .detail = "Strong white",
                                   .remarks = remarks,
                                   .words = "ready"};
                        },
                    .label_lines = 3,
                    .real_today = today},
                   axis);
    });
    CHECK(screen.value_of("W24-118") == "Strong white | ready | use first | 2 results | 83 % measured");
}

TEST_CASE("A curve over a number counts along its lower edge, with the unit, and knows no today") {
    const CurvePoint points[]{{0, 900, 950, 1000}, {80, 980, 1030, 1080}};
    const CurveMark marks[]{{40, 1001, "40 mg/kg: 1001 ml"}};
    Screen screen([&] {
        curve({.name = "Size",
               .y_axis = "loaf volume",
               .unit = "ml",
               .decimals = 0,
               .first_day = 0,
               .last_day = 80,
               .points = points,
               .marks = marks,
               .today = 40,
               .across = Across{.name = "dose", .unit = "mg/kg", .decimals = 0}});
        curve_legend(points, marks, "10 to 90 %", "a loaf");
    });
    CHECK(screen.says("dose, mg/kg"));
    CHECK(screen.says("a loaf"));
    CHECK_FALSE(screen.says("today"));
    CHECK(screen.value_of("Size").empty());
    const auto& from = screen.find("0").rect;
    const auto& to = screen.find("80").rect;
    const auto& mark = screen.find("40 mg/kg: 1001 ml").rect;
    const float middle = (mark.left + mark.right) / 2;
    CHECK(middle == Approx((screen.find("40").rect.left + screen.find("40").rect.right) / 2).margin(2));
    CHECK(from.right < middle);
    CHECK(to.left > middle);
    CHECK(from.bottom <= screen.find("dose, mg/kg").rect.top + 1);
    screen.point_at(middle, mark.top);
    CHECK(screen.value_of("Size") == "40 mg/kg: 990 ml (940 – 1040)");
}

TEST_CASE("The figures along a curve over a number do not touch, however narrow it is") {
    const CurvePoint points[]{{0, 1, 1, 1}, {160, 2, 2, 2}};
    for (const float width : {240.0F, 1200.0F}) {
        Screen screen(
            [&] {
                curve({.name = "Size",
                       .y_axis = "loaf volume",
                       .points = points,
                       .across = Across{.name = "dose", .unit = "mg/kg"}});
            },
            {.width = width});
        const float line = screen.find("dose, mg/kg").rect.top;
        float right = 0;
        int figures = 0;
        for (const auto& note : screen.probe().notes()) {
            if (note.rect.bottom > line + 1 || note.rect.bottom < line - 4)
                continue;
            CHECK(note.rect.left > right);
            right = note.rect.right;
            ++figures;
        }
        INFO("width " << width);
        CHECK(figures >= 2);
    }
}
