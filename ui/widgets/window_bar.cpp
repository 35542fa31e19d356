#include "core/decimal.h"
#include "ui/widgets/chart.h"
#include "ui/widgets/chart_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

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

} // namespace

void window_bar(const WindowBar& bar) {
    const Role role = role_of(bar);
    const std::string value = bar.value ? fixed(*bar.value, bar.decimals) : "not known";
    const std::string window = window_words(bar);
    const Spot spot = open_spot(place().width);
    const float space = quarters(2), row = line() + quarters(1);
    const float label_room = std::min(px(Length{10}), spot.width * 0.34f);
    const float value_room = std::min(px(Length{9}), spot.width * 0.34f);
    ImVec2 at = spot.at;
    const ImVec2 label = measure(bar.label, {}, label_room);
    draw(at, bar.label, tint(Role::quiet), {}, label_room);
    const float right = spot.at.x + spot.width;
    const float bar_left = at.x + label_room + space, bar_right = right - value_room - space;
    if (bar_right - bar_left > em() * 2)
        draw_bar(bar, {{bar_left, at.y}, {bar_right, at.y + line()}}, role);

    // Figures of several bars under each other end at the same place, units after them.
    const float unit_room = std::min(px(Length{3.4f}), value_room * 0.45f);
    const float number_right = right - unit_room;
    const Role shown = bar.is_estimate && role != Role::stop ? Role::model
                       : role == Role::good                  ? Role::ink
                                                             : role;
    const float words = measure(value).x;
    draw({number_right - words, at.y}, value, tint(shown));
    if (const char* mark = sign(bar.is_estimate && role == Role::good ? Role::model : role); *mark)
        draw({number_right - words - quarters(1) - measure(mark).x, at.y}, mark,
             tint(bar.is_estimate && role == Role::good ? Role::model : role));
    if (bar.value)
        draw_clipped({number_right + quarters(1), at.y}, unit_room - quarters(1), bar.unit,
                     tint(Role::quiet));
    float height = std::max(label.y, line());

    std::string under = bar.unit.empty() ? window : fmt::format("{} {}", window, bar.unit);
    if (!bar.note.empty())
        under += fmt::format(" · {}", bar.note);
    const float under_room = std::max(em(), right - bar_left);
    const ImVec2 size = measure(under, {}, under_room);
    draw({bar_left, at.y + line()}, under, tint(Role::quiet), {}, under_room);
    height = std::max(height, line() + size.y);
    if (Note* made = note(Kind::figure, bar.label, {spot.at, spot.at + ImVec2(spot.width, height)})) {
        made->value = value +
                      (role == Role::stop   ? " (outside "
                       : role == Role::good ? " (inside "
                                            : " (") +
                      under + ")";
        made->unit = bar.unit;
    }
    (void)row;
    close_spot(spot, spot.width, height, 1.5f);
}

} // namespace mellowbin::ui
