#include "ui/widgets/curve_parts.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

double round_step(double range, int steps) {
    const double rough = range / steps, power = std::pow(10, std::floor(std::log10(rough)));
    for (const double step : {1.0, 2.0, 5.0})
        if (rough <= step * power)
            return step * power;
    return 10 * power;
}

} // namespace

RoundRange round_range(double least, double greatest, int steps) {
    if (!std::isfinite(least) || !std::isfinite(greatest))
        return {};
    if (!(greatest > least)) { // one value, or none of them differs: room on both sides
        const double room = std::max(std::abs(least) * 0.05, 0.5);
        greatest = least + room;
        least -= room;
    }
    const double step = round_step(greatest - least, std::max(steps, 1));
    // A value that stands on a step up to the error of the division does not open another one.
    return {std::floor(least / step + 1e-9) * step, std::ceil(greatest / step - 1e-9) * step, step};
}

const char* word_for(Known known) {
    switch (known) {
    case Known::estimate:
        return "estimate";
    case Known::measured:
        return "measured";
    case Known::assumed:
        break;
    }
    return "assumed";
}

std::string days_known(std::span<const CurvePoint> points, Known known) {
    constexpr int most_named = 3;
    std::string words;
    int stretches = 0;
    for (std::size_t i = 0; i < points.size();) {
        std::size_t end = i;
        while (end < points.size() && points[end].known == known)
            ++end;
        if (end == i) {
            ++i;
            continue;
        }
        if (++stretches <= most_named) {
            const auto first = day_words(points[i].day), last = day_words(points[end - 1].day);
            words.append(words.empty() ? "" : ", ").append(first);
            if (last != first)
                words.append(" to ").append(last);
        }
        i = end;
    }
    if (stretches > most_named)
        words += " and " + std::to_string(stretches - most_named) +
                 (stretches == most_named + 1 ? " more time" : " more times");
    return words;
}

namespace inner {

int decimals_of(double step) { return std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9))); }

Known known_between(Known one, Known other) {
    for (const Known known : {Known::assumed, Known::estimate})
        if (one == known || other == known)
            return known;
    return Known::measured;
}

std::optional<CurvePoint> on_day(std::span<const CurvePoint> points, double day) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        const CurvePoint& a = points[i];
        if (day == a.day)
            return a;
        if (i + 1 == points.size() || points[i + 1].is_apart)
            continue;
        const CurvePoint& b = points[i + 1];
        if (day < a.day || day > b.day || b.day <= a.day)
            continue;
        const double t = (day - a.day) / (b.day - a.day);
        return CurvePoint{day, std::lerp(a.low, b.low, t), std::lerp(a.likely, b.likely, t),
                          std::lerp(a.high, b.high, t), known_between(a.known, b.known)};
    }
    return std::nullopt;
}

} // namespace inner
} // namespace mellowbin::ui
