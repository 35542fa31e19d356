#include "core/decimal.h"
#include "ui/widgets/curve_parts.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace mellowbin::ui::inner {

namespace {

/// The figure of a step in the middle below its line, kept within the plot.
void draw_step(double at, double step, const CurvePaper& p) {
    const std::string words = fixed(std::abs(at) < step * 0.01 ? 0 : at, decimals_of(step));
    const ImVec2 size = measure(words);
    const float rightmost = std::max(p.plot.Min.x, p.plot.Max.x - size.x);
    const ImVec2 to{std::clamp(p.days.x(at) - size.x / 2, p.plot.Min.x, rightmost),
                    p.plot.Max.y + quarters(0.5f)};
    draw(to, words, tint(Role::quiet));
    note_words(words, to, size);
}

void draw_name(const Across& across, const CurvePaper& p) {
    const std::string words = std::string(across.name) + ", " + std::string(across.unit);
    const ImVec2 size = measure(words);
    const float room = p.all.GetWidth();
    const ImVec2 to{std::max(p.all.Min.x, p.plot.Max.x - size.x), p.plot.Max.y + quarters(0.5f) + line()};
    draw_clipped(to, room, words, tint(Role::quiet));
    note_words(words, to, {std::min(size.x, room), size.y});
}

} // namespace

void draw_across(const Across& across, const CurvePaper& p) {
    constexpr int most_steps = 8;
    const double from = p.days.from, to = p.days.from + p.days.days;
    const float widest = measure(fixed(to, 1)).x + quarters(4);
    const int steps = std::clamp(static_cast<int>(p.plot.GetWidth() / widest), 1, most_steps);
    const double step = round_range(from, to, steps).step;
    for (double at = std::ceil(from / step - 0.01) * step; at <= to + step * 0.01; at += step) {
        const float x = std::round(p.days.x(at));
        paper().AddRectFilled({x, p.plot.Min.y}, {x + hair(), p.plot.Max.y}, tint(Role::ink, 0.13f));
        draw_step(at, step, p);
    }
    draw_name(across, p);
}

} // namespace mellowbin::ui::inner
