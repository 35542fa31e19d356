#include "dough/dose_belief.h"

#include "core/normal.h"

#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace mellowbin::dough {
namespace {

constexpr std::size_t draw_count = 192;
constexpr int fine_steps = 100; ///< of the search for the best dose
constexpr int rough_steps = 25; ///< where only its size is wanted

/// The digits of `index` mirrored behind the point: an even cover of 0 to 1 (Halton).
double mirrored(std::size_t index, std::size_t base) {
    double value = 0;
    for (double place = 1.0 / static_cast<double>(base); index > 0; place /= static_cast<double>(base)) {
        value += place * static_cast<double>(index % base);
        index /= base;
    }
    return value;
}

using Draw = std::array<double, 3>; // plain numbers: this is gone through a million times

/// Standard normal triples, the same ones always.
const std::array<Draw, draw_count>& draws() {
    static const auto made = [] {
        std::array<Draw, draw_count> all{};
        for (std::size_t i = 0; i < draw_count; ++i) {
            const double first = std::sqrt(-2 * std::log(mirrored(i + 1, 2)));
            const double second = std::sqrt(-2 * std::log(mirrored(i + 1, 5)));
            const double turn = 2 * std::numbers::pi * mirrored(i + 1, 3);
            all[i] = {first * std::cos(turn), first * std::sin(turn),
                      second * std::cos(2 * std::numbers::pi * mirrored(i + 1, 7))};
        }
        return all;
    }();
    return made;
}

struct Weighed {
    double dose;
    double weight;
};

/// The dose below which this share of the weight lies.
double quantile(const std::vector<Weighed>& sorted, double share) {
    double sum = 0;
    for (const auto& [dose, weight] : sorted)
        if ((sum += weight) >= share)
            return dose;
    return sorted.back().dose;
}

double size_on(const CurveBelief& on, double dose) {
    const double along = on.scale.along(dose);
    return on.figures[0] + 4 * along * (1 - along) * on.figures[1] + along * on.figures[2];
}

Band normal(double mean, double variance) {
    const double off = to_10_and_90 * std::sqrt(std::max(0.0, variance));
    return {mean - off, mean, mean + off};
}

} // namespace

double LotBelief::expected(double dose) const {
    double size = 0;
    for (const auto& on : scales_)
        size += on.weight * size_on(on, dose);
    return size;
}

Band LotBelief::difference(double dose, bool from_none) const {
    double mean = 0;
    double square = 0;
    for (const auto& on : scales_) {
        CurveFigures counts = counts_at(on.scale.along(dose));
        if (from_none)
            counts -= counts_at(0);
        const double here = counts.dot(on.figures);
        mean += on.weight * here;
        square += on.weight * (here * here + counts.dot(on.spread * counts));
    }
    return normal(mean, square - mean * mean);
}

Band LotBelief::size_at(double dose) const { return difference(dose, false); }

Band LotBelief::gain_of(double dose) const { return difference(dose, true); }

double LotBelief::best(double most) const { return search(most, fine_steps); }

double LotBelief::search(double most, int steps) const {
    double best = 0;
    double largest = expected(0);
    for (int i = 1; i <= steps; ++i) {
        const double dose = most * i / steps;
        if (const double size = expected(dose); size > largest) {
            largest = size;
            best = dose;
        }
    }
    return best;
}

Band LotBelief::optimum(double most) const {
    std::vector<Weighed> tops;
    tops.reserve(scales_.size() * draw_count);
    for (const auto& on : scales_) {
        const CurveSpread root = on.spread.llt().matrixL();
        const double hump_root[] = {root(1, 0), root(1, 1)};
        const double tilt_root[] = {root(2, 0), root(2, 1), root(2, 2)};
        const double hump = on.figures[1];
        const double tilt = on.figures[2];
        const double end = on.scale.along(most);
        const double weight = on.weight / static_cast<double>(draw_count);
        for (const auto& [a, b, c] : draws()) {
            const double top = top_of(hump + hump_root[0] * a + hump_root[1] * b,
                                      tilt + tilt_root[0] * a + tilt_root[1] * b + tilt_root[2] * c, end);
            tops.push_back({top >= end ? most : on.scale.dose_at(top), weight});
        }
    }
    std::sort(tops.begin(), tops.end(), [](const Weighed& a, const Weighed& b) { return a.dose < b.dose; });
    return {quantile(tops, 0.1), quantile(tops, 0.5), quantile(tops, 0.9)};
}

LotBelief LotBelief::after(double dose, double size) const {
    LotBelief next = *this;
    double sum = 0;
    for (auto& on : next.scales_) {
        const CurveFigures counts = counts_at(on.scale.along(dose));
        const CurveFigures pull = on.spread * counts;
        const double variance = counts.dot(pull) + on.scatter;
        const double off = size - counts.dot(on.figures);
        on.weight *= std::exp(-off * off / variance / 2) / std::sqrt(variance);
        on.figures += pull * (off / variance);
        on.spread -= pull * pull.transpose() / variance;
        sum += on.weight;
    }
    for (auto& on : next.scales_)
        on.weight /= sum;
    return next;
}

Lesson LotBelief::lesson_of(double dose, double most) const {
    // How the loaf may turn out, on all scales together: nearly the same on each.
    const double mean = expected(dose);
    double variance = 0;
    for (const auto& on : scales_) {
        const CurveFigures counts = counts_at(on.scale.along(dose));
        const double off = counts.dot(on.figures) - mean;
        variance += on.weight * (off * off + counts.dot(on.spread * counts) + on.scatter);
    }
    Lesson lesson;
    double size_then = 0;
    for (std::size_t i = 0; i < over_normal.points.size(); ++i) {
        const auto then = after(dose, mean + over_normal.points[i] * std::sqrt(variance));
        const auto band = then.optimum(most);
        lesson.width += over_normal.weights[i] * (band.high - band.low);
        size_then += over_normal.weights[i] * then.expected(then.search(most, rough_steps));
    }
    lesson.gain = std::max(0.0, size_then - expected(search(most, rough_steps)));
    return lesson;
}

} // namespace mellowbin::dough
