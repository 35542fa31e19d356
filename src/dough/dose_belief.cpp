#include "dough/dose_belief.h"

#include "core/normal.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace mellowbin::dough {
namespace {

constexpr std::size_t draw_count = 1024;
constexpr std::size_t rough_ways = 32;
constexpr int fine_steps = 100; ///< of the search for the best dose
constexpr int rough_steps = 25; ///< where only its size is wanted
constexpr double hair = 1e-12;

/// The digits of `index` mirrored behind the point: an even cover of 0 to 1 (Halton).
double mirrored(std::size_t index, std::size_t base) {
    double value = 0;
    for (double place = 1.0 / static_cast<double>(base); index > 0; place /= static_cast<double>(base)) {
        value += place * static_cast<double>(index % base);
        index /= base;
    }
    return value;
}

using Draw = std::array<double, 5>; // plain numbers: this is gone through a million times

/// Standard normals, the same ones always.
const std::array<Draw, draw_count>& draws() {
    static const auto made = [] {
        std::array<Draw, draw_count> all{};
        for (std::size_t i = 0; i < draw_count; ++i) {
            const auto pair = [&](std::size_t far, std::size_t round) {
                const double off = std::sqrt(-2 * std::log(mirrored(i + 1, far)));
                const double turn = 2 * std::numbers::pi * mirrored(i + 1, round);
                return std::pair{off * std::cos(turn), off * std::sin(turn)};
            };
            const auto [a, b] = pair(2, 3);
            const auto [c, d] = pair(5, 7);
            all[i] = {a, b, c, d, pair(11, 13).first};
        }
        return all;
    }();
    return made;
}

/// `count` of these, each as often as it weighs: even steps through their weights.
template <class Take> void take_evenly(const std::vector<CurveBelief>& ways, std::size_t count, Take&& take) {
    std::size_t at = 0;
    double below = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double share = (static_cast<double>(i) + 0.5) / static_cast<double>(count);
        while (at + 1 < ways.size() && below + ways[at].weight < share)
            below += ways[at++].weight;
        take(at, i);
    }
}

double drawn(const Band& band, double normal) {
    const double off = normal < 0 ? band.likely - band.low : band.high - band.likely;
    return band.likely + off * normal / to_10_and_90;
}

/// The end of what is known of mature flour, as a dose with what maturing stands for: of doses to `most`, and
/// of what was baked.
double end_of(double on, double most, double on_baked, double highest) {
    return on > on_baked ? std::min(on + most, on_baked + std::max(most, highest)) : on + most;
}

/// A curve as it was drawn.
struct DrawnCurve {
    CurveForm form;
    const CurveBelief* way = nullptr;

    /// Its best dose from 0 to `most` in flour of this maturity, baked at that one; `most` as well where it
    /// rises to the end of what was baked.
    [[nodiscard]] double best(double most, double maturity, const LotBelief::Baked& baked) const {
        const auto& scale = way->scale;
        const double on = std::max(0.0, way->fall * maturity);
        const double end = end_of(on, most, std::max(0.0, way->fall * baked.maturity), baked.highest);
        const double to = scale.along(end);
        if (on >= end) // any dose is more than was baked
            return form.top(0, to) < to ? 0 : most;
        const double from = scale.along(on);
        const double top = form.top(from, to);
        if (top >= to)
            return most;
        return top <= from ? 0 : std::clamp(scale.dose_at(top) - on, 0.0, most);
    }
};

Band normal(double mean, double variance) {
    const double off = to_10_and_90 * std::sqrt(std::max(0.0, variance));
    return {mean - off, mean, mean + off};
}

} // namespace

Band band_of(std::vector<double>& values) {
    const auto at = [&](double share) {
        const auto place =
            static_cast<std::ptrdiff_t>(std::lround(share * static_cast<double>(values.size() - 1)));
        std::nth_element(values.begin(), values.begin() + place, values.end());
        return values[static_cast<std::size_t>(place)];
    };
    return {at(0.1), at(0.5), at(0.9)};
}

Band band_between(std::vector<double>& values, double least, double most) {
    const auto count = static_cast<double>(values.size());
    const auto share_at = [&](double end) {
        return static_cast<double>(std::count(values.begin(), values.end(), end)) / count;
    };
    const double at_least = share_at(least);
    const double at_most = share_at(most);
    // What lies on an end and is held by it needs no tail there: the other side takes it.
    const auto other_tail = [](double on_end) { return 0.1 + std::clamp(on_end - 0.1, 0.0, 0.06); };
    const double below = at_least >= 0.1 ? 0 : other_tail(at_most);
    const double above = at_most >= 0.1 ? 0 : other_tail(at_least);
    const auto at = [&](double share) {
        const auto place = static_cast<std::ptrdiff_t>(std::lround(share * (count - 1)));
        std::nth_element(values.begin(), values.begin() + place, values.end());
        return values[static_cast<std::size_t>(place)];
    };
    return {at(below), at(0.5), at(1 - above)};
}

LotBelief::LotBelief(std::vector<CurveBelief> ways, const Band& maturity, const Baked& baked)
    : ways_(std::move(ways)), maturity_(maturity), baked_(baked) {
    find_means();
}

void LotBelief::find_means() {
    means_.clear();
    for (const auto& way : ways_) {
        const double on = std::max(0.0, way.fall * maturity_.likely);
        auto same = std::find_if(means_.begin(), means_.end(), [&](const MeanCurve& mean) {
            return mean.on == on && mean.scale == way.scale;
        });
        if (same == means_.end())
            same = means_.insert(means_.end(), {way.scale, on, std::max(0.0, way.fall * baked_.maturity),
                                                CurveFigures::Zero()});
        same->figures += way.weight * way.figures;
    }
}

double LotBelief::along(const CurveBelief& way, double dose) const {
    return way.scale.along(dose + std::max(0.0, way.fall * maturity_.likely));
}

double LotBelief::expected(double dose, double most) const {
    double size = 0;
    for (const auto& mean : means_) {
        const double counts = std::min(mean.on + dose, end_of(mean.on, most, mean.on_baked, baked_.highest));
        size += counts_at(mean.scale.along(counts)).dot(mean.figures);
    }
    return size;
}

Band LotBelief::difference(double dose, bool from_none) const {
    double mean = 0;
    double square = 0;
    for (const auto& way : ways_) {
        CurveFigures counts = counts_at(along(way, dose));
        if (from_none)
            counts -= counts_at(along(way, 0));
        const double here = counts.dot(way.figures);
        mean += way.weight * here;
        square += way.weight * (here * here + counts.dot(way.spread * counts));
    }
    return normal(mean, square - mean * mean);
}

Band LotBelief::size_at(double dose) const { return difference(dose, false); }

Band LotBelief::gain_of(double dose) const { return difference(dose, true); }

double LotBelief::best(double most) const { return search(most, fine_steps); }

double LotBelief::search(double most, int steps) const {
    double best = 0;
    double largest = expected(0, most);
    for (int i = 1; i <= steps; ++i) {
        const double dose = most * i / steps;
        if (const double size = expected(dose, most); size > largest * (1 + hair)) {
            largest = size;
            best = dose;
        }
    }
    return best;
}

/// Told of each drawn curve, with a standard normal of its own.
template <class Visit> void LotBelief::visit(Visit&& visit) const {
    struct Root { // of the spread of hump, tilt and lean
        std::array<double, 2> hump;
        std::array<double, 3> tilt;
        std::array<double, 4> lean;
    };
    std::vector<Root> roots;
    roots.reserve(ways_.size());
    for (const auto& way : ways_) {
        const CurveSpread root = way.spread.llt().matrixL();
        roots.push_back({{root(1, 0), root(1, 1)},
                         {root(2, 0), root(2, 1), root(2, 2)},
                         {root(3, 0), root(3, 1), root(3, 2), root(3, 3)}});
    }
    take_evenly(ways_, draw_count, [&](std::size_t at, std::size_t draw) {
        const auto& way = ways_[at];
        const auto& [a, b, c, d, own] = draws()[draw];
        const auto& [hump, tilt, lean] = roots[at];
        const CurveForm form{way.figures[1] + hump[0] * a + hump[1] * b,
                             way.figures[2] + tilt[0] * a + tilt[1] * b + tilt[2] * c,
                             way.figures[3] + lean[0] * a + lean[1] * b + lean[2] * c + lean[3] * d};
        visit(DrawnCurve{form, &way}, own);
    });
}

Band LotBelief::optimum(double most) const {
    std::vector<double> tops;
    tops.reserve(draw_count);
    visit([&](const DrawnCurve& curve, double own) {
        tops.push_back(curve.best(most, drawn(maturity_, own), baked_));
    });
    return band_between(tops, 0, most);
}

Band LotBelief::fallen(double most) const {
    std::vector<double> falls;
    falls.reserve(draw_count);
    visit([&](const DrawnCurve& curve, double own) {
        falls.push_back(curve.best(most, baked_.maturity, baked_) -
                        curve.best(most, drawn(maturity_, own), baked_));
    });
    return band_of(falls);
}

LotBelief LotBelief::rough() const {
    if (ways_.size() <= rough_ways)
        return *this;
    std::vector<CurveBelief> fewer;
    std::size_t last = ways_.size();
    constexpr double share = 1.0 / static_cast<double>(rough_ways);
    take_evenly(ways_, rough_ways, [&](std::size_t at, std::size_t) {
        if (at == last) {
            fewer.back().weight += share;
            return;
        }
        fewer.push_back(ways_[at]);
        fewer.back().weight = share;
        last = at;
    });
    return {std::move(fewer), maturity_, baked_};
}

LotBelief LotBelief::after(double dose, double size) const {
    LotBelief next = *this;
    double sum = 0;
    for (auto& way : next.ways_) {
        const CurveFigures counts = counts_at(along(way, dose));
        const CurveFigures pull = way.spread * counts;
        const double variance = counts.dot(pull) + way.scatter;
        const double off = size - counts.dot(way.figures);
        way.weight *= std::exp(-off * off / variance / 2) / std::sqrt(variance);
        way.figures += pull * (off / variance);
        way.spread -= pull * pull.transpose() / variance;
        sum += way.weight;
    }
    for (auto& way : next.ways_)
        way.weight /= sum;
    next.find_means();
    return next;
}

Lesson LotBelief::lesson_of(double dose, double most) const {
    // How the loaf may turn out, on all scales together: nearly the same on each.
    const double mean = expected(dose, std::max(dose, most));
    double variance = 0;
    for (const auto& way : ways_) {
        const CurveFigures counts = counts_at(along(way, dose));
        const double off = counts.dot(way.figures) - mean;
        variance += way.weight * (off * off + counts.dot(way.spread * counts) + way.scatter);
    }
    Lesson lesson;
    double size_then = 0;
    for (std::size_t i = 0; i < over_normal.points.size(); ++i) {
        const auto then = after(dose, mean + over_normal.points[i] * std::sqrt(variance));
        const auto band = then.optimum(most);
        lesson.width += over_normal.weights[i] * (band.high - band.low);
        size_then += over_normal.weights[i] * then.expected(then.search(most, rough_steps), most);
    }
    lesson.gain = std::max(0.0, size_then - expected(search(most, rough_steps), most));
    return lesson;
}

} // namespace mellowbin::dough
