#include "core/decimal.h"
#include "ui/widgets/chart.h"
#include "ui/widgets/chart_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

constexpr const char* not_known = "not known";

struct Range {
    double from, to;
};

/// The stretch drawn: the window and half of it at both sides, more if the value lies beyond.
Range range_of(const WindowBar& bar) {
    const double low = bar.low.value_or(bar.high.value_or(0)), high = bar.high.value_or(bar.low.value_or(0));
    double half = (high - low) * 0.5;
    if (half <= 0)
        half = std::max(std::abs(low) * 0.1, std::pow(10, -bar.decimals));
    Range range{low - half, high + half};
    if (bar.value) {
        range.from = std::min(range.from, *bar.value - half * 0.3);
        range.to = std::max(range.to, *bar.value + half * 0.3);
    }
    return range;
}

std::string window_words(const WindowBar& bar) {
    if (bar.low && bar.high)
        return fmt::format("{:.{}f} – {:.{}f}", *bar.low, bar.decimals, *bar.high, bar.decimals);
    if (bar.low)
        return fmt::format("≥ {:.{}f}", *bar.low, bar.decimals);
    if (bar.high)
        return fmt::format("≤ {:.{}f}", *bar.high, bar.decimals);
    return "no window";
}

Role role_of(const WindowBar& bar) {
    if (!bar.value || (!bar.low && !bar.high))
        return Role::quiet;
    const bool inside = (!bar.low || *bar.value >= *bar.low) && (!bar.high || *bar.value <= *bar.high);
    return inside ? Role::good : Role::stop;
}

void draw_bar(const WindowBar& bar, const ImRect& rect, Role role) {
    const Range range = range_of(bar);
    const auto x = [&](double v) {
        return rect.Min.x + rect.GetWidth() * static_cast<float>(std::clamp(
                                                  (v - range.from) / (range.to - range.from), 0.0, 1.0));
    };
    const float middle = std::round(rect.GetCenter().y), thick = quarters(1.1f);
    paper().AddRectFilled({rect.Min.x, middle - hair()}, {rect.Max.x, middle + hair()},
                          mix(Role::panel, Role::quiet, 0.4f));
    if (bar.low || bar.high) {
        const float from = bar.low ? x(*bar.low) : rect.Min.x, to = bar.high ? x(*bar.high) : rect.Max.x;
        paper().AddRectFilled({from, middle - thick}, {to, middle + thick},
                              mix(Role::panel, Role::good, 0.28f));
        for (const auto& [at, is_there] :
             {std::pair{from, bar.low.has_value()}, std::pair{to, bar.high.has_value()}})
            if (is_there)
                paper().AddRectFilled({at - hair(), middle - thick * 1.3f},
                                      {at + hair(), middle + thick * 1.3f}, tint(Role::good));
    }
    if (!bar.value)
        return;
    if (bar.spread && *bar.spread > 0)
        paper().AddRectFilled({x(*bar.value - *bar.spread), middle - quarters(0.4f)},
                              {x(*bar.value + *bar.spread), middle + quarters(0.4f)},
                              tint(Role::model, 0.55f));
    const ImU32 mark = bar.is_estimate ? tint(Role::model) : tint(role == Role::quiet ? Role::ink : role);
    const float at = std::round(x(*bar.value)), r = quarters(1.25f);
    const ImVec2 points[]{{at, middle - r}, {at + r, middle}, {at, middle + r}, {at - r, middle}};
    paper().AddConvexPolyFilled(points, 4, mark);
    paper().AddPolyline(points, 4, tint(Role::panel), ImDrawFlags_Closed, hair());
}

/// The columns that bars under each other share: label, bar, figure ending at one place, unit.
struct Columns {
    float label, bar_left, bar_right, number_right, right;
};

Columns columns_of(const Spot& spot) {
    const float space = quarters(2), right = spot.at.x + spot.width;
    const float label = std::min(px(Length{10}), spot.width * 0.34f);
    const float value = std::min(px(Length{9}), spot.width * 0.34f);
    const float unit = std::min(px(Length{3.4f}), value * 0.45f);
    return {label, spot.at.x + label + space, right - value - space, right - unit, right};
}

void draw_value(const WindowBar& bar, const Columns& c, float y, Role role) {
    if (!bar.value) {
        draw_right(c.right, y, not_known, tint(Role::quiet));
        return;
    }
    const std::string value = fixed(*bar.value, bar.decimals);
    const bool only_estimated = bar.is_estimate && role != Role::stop;
    const Role marked = bar.is_estimate && role == Role::good ? Role::model : role;
    const float left = c.number_right - measure(value).x;
    draw({left, y}, value, tint(only_estimated ? Role::model : role == Role::good ? Role::ink : role));
    if (const char* mark = sign(marked); *mark)
        draw({left - quarters(1) - measure(mark).x, y}, mark, tint(marked));
    draw_clipped({c.number_right + quarters(1), y}, c.right - c.number_right - quarters(1), bar.unit,
                 tint(Role::quiet));
}

std::string words_under(const WindowBar& bar) {
    std::string words = window_words(bar);
    if (!bar.unit.empty())
        words += fmt::format(" {}", bar.unit);
    if (!bar.note.empty())
        words += fmt::format(" · {}", bar.note);
    return words;
}

std::string in_words(const WindowBar& bar, Role role) {
    return fmt::format("{} ({}{})", bar.value ? fixed(*bar.value, bar.decimals) : not_known,
                       role == Role::stop   ? "outside "
                       : role == Role::good ? "inside "
                                            : "",
                       words_under(bar));
}

} // namespace

void window_bar(const WindowBar& bar) {
    const Role role = role_of(bar);
    const Spot spot = open_spot(place().width);
    const Columns c = columns_of(spot);
    const float y = spot.at.y;
    const ImVec2 label = measure(bar.label, {}, c.label);
    draw(spot.at, bar.label, tint(Role::quiet), {}, c.label);
    const float bar_right =
        bar.value ? c.bar_right : std::min(c.bar_right, c.right - measure(not_known).x - quarters(2));
    if (bar_right - c.bar_left > 2 * em())
        draw_bar(bar, {{c.bar_left, y}, {bar_right, y + line()}}, role);
    draw_value(bar, c, y, role);

    const std::string under = words_under(bar);
    const float under_room = std::max(em(), c.right - c.bar_left);
    const ImVec2 size = measure(under, {}, under_room);
    draw({c.bar_left, y + line()}, under, tint(Role::quiet), {}, under_room);
    const float height = std::max(label.y, line() + size.y);
    if (Note* made = note(Kind::figure, bar.label, {spot.at, spot.at + ImVec2(spot.width, height)})) {
        made->value = in_words(bar, role);
        made->unit = bar.unit;
    }
    close_spot(spot, spot.width, height, 1.5f);
}

} // namespace mellowbin::ui
