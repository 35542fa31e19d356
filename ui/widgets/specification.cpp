#include "ui/widgets/specification.h"

#include "core/decimal.h"
#include "ui/widgets/inner.h"
#include "ui/widgets/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace mellowbin::ui {

using namespace inner;

namespace {

/// Where on its bar every specification begins and ends.
constexpr float from = 0.24f, to = 0.76f;

/// The columns that all rows share.
struct Columns {
    float left, bar_left, bar_right, mill, own; ///< of the figures the right edges
};

Columns columns_of(float left, float width, const SpecificationBars& bars) {
    float label = 0;
    for (const auto& row : bars.rows)
        label = std::max(label, measure(row.label, {TextSize::text, Weight::bold}).x + quarters(1) +
                                    measure(row.unit).x);
    const float figure = measure("✕ 000.0").x + quarters(2);
    const float own = left + width, mill = own - figure;
    label = std::min(label, width * 0.4f);
    return {left, left + label + quarters(3), mill - figure, mill, own};
}

/// 0 to 1 along the bar. Of a specification with one end a tenth of its limit is half the stretch (an
/// assumption, for drawing only).
float place_of(const SpecificationRow& row, double value) {
    const double low = row.low.value_or(row.high.value_or(0)), high = row.high.value_or(low);
    const double stretch =
        row.low && row.high && high > low ? high - low : std::max(1e-9, std::abs(high) * 0.2);
    const double at = row.low ? from + (value - low) / stretch * static_cast<double>(to - from)
                              : to + (value - high) / stretch * static_cast<double>(to - from);
    return static_cast<float>(std::clamp(at, 0.01, 0.99));
}

enum class Mark { mill, own };

void draw_mark(Mark mark, float x, float y, bool fails) {
    const float r = quarters(1.3f), way = mark == Mark::mill ? -1.0f : 1.0f;
    const ImU32 colour = tint(fails ? Role::stop : Role::ink);
    const ImVec2 points[]{{x - r, y + way * r * 1.8f}, {x + r, y + way * r * 1.8f}, {x, y + way * r * 0.2f}};
    if (mark == Mark::own)
        paper().AddTriangleFilled(points[0], points[1], points[2], colour);
    else
        paper().AddTriangle(points[0], points[1], points[2], colour, 1.75f * hair());
}

/// A mark that fails has a stem through the bar: its place is seen in black and white.
void draw_measured(const SpecificationRow& row, const Measured& one, Mark mark, const ImRect& bar) {
    if (!one.value)
        return;
    const float x = std::round(bar.Min.x + bar.GetWidth() * place_of(row, *one.value));
    if (one.fails)
        paper().AddRectFilled({x - hair(), bar.Min.y}, {x + hair(), bar.Max.y}, tint(Role::stop));
    draw_mark(mark, x, mark == Mark::mill ? bar.Min.y : bar.Max.y, one.fails);
}

void draw_ends(const SpecificationRow& row, const ImRect& inside) {
    const float y = std::round(inside.GetCenter().y - line() / 2), pad = quarters(1.5f);
    const std::string low = row.low ? fixed(*row.low, row.decimals) : std::string();
    const std::string high = row.high ? fixed(*row.high, row.decimals) : std::string();
    if (measure(low).x + measure(high).x + 3 * pad > inside.GetWidth())
        return;
    draw({inside.Min.x + pad, y}, low, tint(Role::quiet));
    draw_right(inside.Max.x - pad, y, high, tint(Role::quiet));
}

void draw_bar(const SpecificationRow& row, const ImRect& bar) {
    const float middle = std::round(bar.GetCenter().y);
    paper().AddRectFilled({bar.Min.x, middle - hair()}, {bar.Max.x, middle + 2 * hair()}, tint(Role::raised));
    if (row.low || row.high) {
        const ImRect inside{{row.low ? bar.Min.x + bar.GetWidth() * from : bar.Min.x, bar.Min.y},
                            {row.high ? bar.Min.x + bar.GetWidth() * to : bar.Max.x, bar.Max.y}};
        const float round = corner() * 0.6f;
        paper().AddRectFilled(inside.Min, inside.Max, mix(Role::panel, Role::good, 0.12f), round);
        paper().AddRect(inside.Min, inside.Max, mix(Role::panel, Role::good, 0.7f), round, 0, hair());
        draw_ends(row, inside);
    }
    draw_measured(row, row.mill, Mark::mill, bar);
    draw_measured(row, row.own, Mark::own, bar);
}

void draw_figure(const SpecificationRow& row, const Measured& one, float right, float y) {
    if (!one.value) {
        draw_right(right, y, "–", tint(Role::quiet));
        return;
    }
    const std::string value = (one.fails ? "✕ " : "") + fixed(*one.value, row.decimals);
    draw_right(right, y, value, tint(one.fails ? Role::stop : Role::ink),
               {TextSize::text, one.fails ? Weight::bold : Weight::regular});
}

std::string in_words(const SpecificationRow& row, const Measured& one, std::string_view whose) {
    if (!one.value)
        return fmt::format("{} {}", whose, one.words.empty() ? std::string_view("not reported") : one.words);
    const bool is_below = one.fails && row.low && *one.value < *row.low;
    return fmt::format("{} {}{}", whose, fixed(*one.value, row.decimals),
                       !one.fails ? ""
                       : is_below ? ", below"
                                  : ", above");
}

std::string in_words(const SpecificationRow& row) {
    std::string ends = "no specification";
    if (row.low && row.high)
        ends = fmt::format("{} to {}", fixed(*row.low, row.decimals), fixed(*row.high, row.decimals));
    else if (row.low || row.high)
        ends = fmt::format("at {} {}", row.low ? "least" : "most",
                           fixed(row.low ? *row.low : *row.high, row.decimals));
    return fmt::format("{}; {}; {}", in_words(row, row.mill, "mill"), in_words(row, row.own, "own"), ends);
}

void draw_row(const SpecificationRow& row, const Columns& c) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float height = line() + quarters(4.5f), half = quarters(2);
    const float middle = std::round(spot.at.y + height / 2), y = std::round(middle - line() / 2);
    const bool fails = row.mill.fails || row.own.fails;
    const Words style{TextSize::text, fails ? Weight::bold : Weight::regular};
    const float unit = measure(row.unit).x, room = c.bar_left - quarters(2) - c.left - unit - quarters(1);
    draw_clipped({c.left, y}, room, row.label, tint(Role::ink), style);
    draw({c.left + std::min(room, measure(row.label, style).x) + quarters(1), y}, row.unit,
         tint(Role::quiet));
    if (c.bar_right - c.bar_left > 4 * em())
        draw_bar(row, {{c.bar_left, middle - half}, {c.bar_right, middle + half}});
    draw_figure(row, row.mill, c.mill, y);
    draw_figure(row, row.own, c.own, y);
    paper().AddRectFilled({spot.at.x, spot.at.y + height - hair()},
                          {spot.at.x + spot.width, spot.at.y + height}, tint(Role::raised));
    if (Note* made = note(Kind::figure, row.label, {spot.at, spot.at + ImVec2(spot.width, height)})) {
        made->value = in_words(row);
        made->unit = row.unit;
    }
    close_spot(spot, spot.width, height, 0);
}

/// A sign of the legend with its words.
void legend(std::string_view words, FunctionRef<void(const ImRect&)> sign_of, float wide) {
    const float space = quarters(1);
    const ImVec2 size = measure(words);
    const Spot spot = open_spot(wide + space + size.x);
    sign_of({spot.at, spot.at + ImVec2(wide, line())});
    draw(spot.at + ImVec2(wide + space, 0), words, tint(Role::ink));
    note_words(words, spot.at, {wide + space + size.x, line()});
    close_spot(spot, wide + space + size.x + quarters(2), line(), 1);
}

void draw_legend(const SpecificationBars& bars) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_place(Place::Kind::flow, spot.at.x, spot.width);
    const float r = quarters(1.3f);
    const auto sign_of = [&](Mark mark, const ImRect& at) {
        draw_mark(mark, at.GetCenter().x, at.GetCenter().y + (mark == Mark::mill ? r : -r), false);
    };
    const auto day = [](std::string_view whose, std::string_view on) {
        return on.empty() ? std::string(whose) : fmt::format("{}, {}", whose, on);
    };
    const auto mill = [&](const ImRect& at) { sign_of(Mark::mill, at); };
    const auto own = [&](const ImRect& at) { sign_of(Mark::own, at); };
    const auto specified = [&](const ImRect& at) {
        const ImRect box{at.Min + ImVec2(0, quarters(1)), at.Max - ImVec2(0, quarters(1))};
        paper().AddRectFilled(box.Min, box.Max, mix(Role::panel, Role::good, 0.12f), corner() * 0.6f);
        paper().AddRect(box.Min, box.Max, mix(Role::panel, Role::good, 0.7f), corner() * 0.6f, 0, hair());
    };
    legend(day("mill", bars.mill_day), mill, 2 * r);
    if (!bars.own_day.empty())
        legend(day("own", bars.own_day), own, 2 * r);
    legend("specification", specified, quarters(6));
    const float bottom = place().reached;
    pop_place();
    close_spot(spot, spot.width, bottom - spot.at.y);
}

void draw_heads(std::string_view basis, const Columns& c) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    draw(spot.at, basis, tint(Role::quiet));
    note_words(basis, spot.at, measure(basis));
    draw_right(c.mill, spot.at.y, "Mill", tint(Role::quiet));
    draw_right(c.own, spot.at.y, "Own", tint(Role::quiet));
    note_words("Mill", {c.mill - measure("Mill").x, spot.at.y}, measure("Mill"));
    note_words("Own", {c.own - measure("Own").x, spot.at.y}, measure("Own"));
    const float height = line() + quarters(1);
    paper().AddRectFilled({spot.at.x, spot.at.y + height - hair()},
                          {spot.at.x + spot.width, spot.at.y + height}, tint(Role::raised));
    close_spot(spot, spot.width, height, 0);
}

} // namespace

void specification_bars(const SpecificationBars& bars) {
    draw_legend(bars);
    const Columns columns = columns_of(place().left, place().width, bars);
    draw_heads(bars.basis, columns);
    for (const auto& row : bars.rows)
        draw_row(row, columns);
    gap(2);
}

} // namespace mellowbin::ui
