#include "ui/widgets/chart_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace mellowbin::ui {

double day_number(Day day) { return static_cast<double>(day.time_since_epoch().count()); }
Day day_of(double number) { return Day{Days{static_cast<int>(std::floor(number))}}; }

const char* word_for(Texture texture) {
    switch (texture) {
    case Texture::young:
        return "young";
    case Texture::usable:
        return "usable";
    case Texture::ready:
        return "ready";
    case Texture::past_best:
        break;
    }
    return "past its best";
}

namespace inner {

std::string day_words(double day) {
    static constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const date::year_month_day on{day_of(day)};
    return std::to_string(static_cast<unsigned>(on.day())) + " " +
           months[static_cast<unsigned>(on.month()) - 1];
}

int label_step(const DayScale& scale) {
    const float room = measure("28 Nov").x + quarters(3);
    for (const int step : {1, 2, 7, 14, 28, 56, 112, 364})
        if (scale.day_width() * static_cast<float>(step) >= room)
            return step;
    return 728;
}

bool has_label(double day, int step) {
    // 5 January 1970 was a Monday: weeks are labelled at their Mondays.
    const int from_monday = static_cast<int>(std::floor(day)) - 4;
    return from_monday % step == 0;
}

void draw_day_labels(const DayScale& scale, float y) {
    const int step = label_step(scale);
    for (double day = std::floor(scale.from); day < scale.from + scale.days; ++day) {
        if (!has_label(day, step))
            continue;
        const std::string words = day_words(day);
        const float x = scale.x(day) + quarters(1);
        if (x < scale.left || x + measure(words).x > scale.right)
            continue;
        draw({x, y}, words, tint(Role::quiet));
        note_words(words, {x, y}, measure(words));
    }
}

void draw_day_lines(const DayScale& scale, float top, float bottom) {
    const int step = label_step(scale);
    const bool each_day = scale.day_width() >= quarters(2);
    for (double day = std::ceil(scale.from); day < scale.from + scale.days; ++day) {
        const bool strong = has_label(day, step);
        if (!strong && !each_day)
            continue;
        const float x = std::round(scale.x(day));
        paper().AddRectFilled({x, top}, {x + hair(), bottom}, tint(Role::ink, strong ? 0.13f : 0.045f));
    }
}

void draw_today(const DayScale& scale, double day, float top, float bottom, float thickness) {
    const float x = std::round(scale.x(day));
    if (x < scale.left || x > scale.right)
        return;
    paper().AddRectFilled({x - thickness / 2, top}, {x + thickness / 2, bottom}, tint(Role::accent));
}

namespace {

/// Slanting lines across a rectangle, cut at its ends.
void hatch(const ImRect& rect, const ImRect& seen, float spacing, bool rising, ImU32 colour,
           float thickness) {
    const float high = rect.GetHeight();
    const float first = std::max(rect.Min.x - high, seen.Min.x - high);
    const float last = std::min(rect.Max.x, seen.Max.x);
    // Counted from the screen's edge, so that neighbours' lines meet and nothing crawls when the axis moves.
    for (float x = std::ceil(first / spacing) * spacing; x < last; x += spacing) {
        const float from = std::max(x, rect.Min.x), to = std::min(x + high, rect.Max.x);
        if (to <= from)
            continue;
        const float y0 = from - x, y1 = to - x; // heights reached at both ends
        if (rising)
            paper().AddLine({from, rect.Max.y - y0}, {to, rect.Max.y - y1}, colour, thickness);
        else
            paper().AddLine({from, rect.Min.y + y0}, {to, rect.Min.y + y1}, colour, thickness);
    }
}

} // namespace

void draw_texture(const ImRect& rect, Texture texture, ImRect seen) {
    if (rect.Max.x <= seen.Min.x || rect.Min.x >= seen.Max.x || rect.Max.x - rect.Min.x < 0.5f)
        return;
    const float thin = hair(), space = quarters(1.6f);
    switch (texture) {
    case Texture::young:
        paper().AddRect(rect.Min, rect.Max, tint(Role::quiet), 0, 0, thin);
        break;
    case Texture::usable:
        paper().AddRectFilled(rect.Min, rect.Max, tint(Role::good, 0.08f));
        hatch(rect, seen, space, true, tint(Role::good, 0.85f), thin);
        paper().AddRect(rect.Min, rect.Max, tint(Role::good), 0, 0, thin);
        break;
    case Texture::ready:
        paper().AddRectFilled(rect.Min, rect.Max, tint(Role::good));
        break;
    case Texture::past_best:
        hatch(rect, seen, space, true, tint(Role::mind, 0.75f), thin);
        hatch(rect, seen, space, false, tint(Role::mind, 0.75f), thin);
        paper().AddRect(rect.Min, rect.Max, tint(Role::mind), 0, 0, thin);
        break;
    }
}

void draw_fade(const DayScale& scale, const Fade& fade, float top, float bottom) {
    const std::array at{fade.q05, fade.q25, fade.q50, fade.q75, fade.q95};
    constexpr std::array strength{0.0f, 0.55f, 1.0f, 0.55f, 0.0f};
    if (scale.x(at.back()) <= scale.left || scale.x(at.front()) >= scale.right)
        return;
    ImGui::PushClipRect({scale.left, top - quarters(1)}, {scale.right, bottom + quarters(1)}, true);
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
        const float from = scale.x(at[i]), to = scale.x(at[i + 1]);
        if (to <= from || to < scale.left || from > scale.right)
            continue;
        const ImU32 one = tint(Role::model, strength[i]), other = tint(Role::model, strength[i + 1]);
        paper().AddRectFilledMultiColor({from, top}, {to, bottom}, one, other, other, one);
    }
    ImGui::PopClipRect();
    const float middle = std::round(scale.x(fade.q50));
    if (middle >= scale.left && middle <= scale.right)
        paper().AddRectFilled({middle, top - quarters(0.5f)}, {middle + 2 * hair(), bottom + quarters(0.25f)},
                              tint(Role::model));
}

void draw_dashes(ImVec2 from, ImVec2 to, ImU32 colour, float thickness) {
    const ImVec2 way = to - from;
    const float length = std::sqrt(way.x * way.x + way.y * way.y), dash = quarters(1.25f);
    for (float at = 0; at < length; at += 2 * dash) {
        const float until = std::min(at + dash, length);
        paper().AddLine(from + way * (at / length), from + way * (until / length), colour, thickness);
    }
}

} // namespace inner
} // namespace mellowbin::ui
