#include "aging/fat_acidity.h"

#include "core/literature/constants.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

double usual_fresh(FlourClass flour_class) {
    switch (flour_class) {
    case FlourClass::white:
        return lit::aging_fat_acidity_fresh.value;
    case FlourClass::high_extraction:
        return lit::aging_fat_acidity_fresh_high_extraction.value;
    case FlourClass::wholemeal:
        return lit::aging_fat_acidity_fresh_wholemeal.value;
    }
    return lit::aging_fat_acidity_fresh.value;
}

/// One rise that may be, with the line's height at the clock's zero and how likely it is.
struct MaybeLine {
    double rise, base, weight;
};

struct Point {
    double days_at_20, value;
};

std::vector<MaybeLine> lines_through(std::span<const Point> points, double median, double gsd, double fresh) {
    constexpr int half = 200;  // steps of 2 % of the rise: finer than determinations tell it
    constexpr double edge = 4; // standard deviations
    std::vector<MaybeLine> lines;
    double most = -INFINITY;
    for (int i = -half; i <= half; ++i) {
        const double z = edge * i / half;
        const double rise = median * std::exp(z * std::log(gsd));
        double weights = 0, base = 0, misfit = 0;
        for (const auto& point : points) {
            const double error = lit::aging_fat_acidity_error.value * point.value;
            weights += 1 / (error * error);
            base += (point.value - rise * point.days_at_20) / (error * error);
        }
        base = points.empty() ? fresh : base / weights;
        for (const auto& point : points) {
            const double error = lit::aging_fat_acidity_error.value * point.value;
            const double miss = (point.value - base - rise * point.days_at_20) / error;
            misfit += miss * miss;
        }
        lines.push_back({rise, base, -(z * z + misfit) / 2});
        most = std::max(most, lines.back().weight);
    }
    double sum = 0;
    for (auto& line : lines)
        sum += line.weight = std::exp(line.weight - most);
    for (auto& line : lines)
        line.weight /= sum;
    return lines;
}

/// The lines are in order of their rise; the one that a share of the belief lies at or below, between two of
/// them where it falls there.
MaybeLine at_share(const std::vector<MaybeLine>& lines, double share) {
    const MaybeLine* before = &lines.front();
    double sum_before = 0, sum = 0; // half of each line's weight lies below it
    for (const auto& line : lines) {
        const double here = sum + line.weight / 2;
        if (here >= share) {
            const double way = here > sum_before ? (share - sum_before) / (here - sum_before) : 1;
            return {std::lerp(before->rise, line.rise, way), std::lerp(before->base, line.base, way), 0};
        }
        before = &line;
        sum_before = here;
        sum += line.weight;
    }
    return lines.back();
}

/// By the method of the newest, in order of time.
std::vector<FatAcidityTest> of_one_method(std::vector<FatAcidityTest> tests) {
    std::stable_sort(tests.begin(), tests.end(), [](const FatAcidityTest& a, const FatAcidityTest& b) {
        return a.taken_on < b.taken_on;
    });
    if (tests.empty())
        return tests;
    const std::string method = plain_method(tests.back().method);
    const bool is_the_mills = tests.back().is_the_mills;
    std::erase_if(tests, [&](const FatAcidityTest& test) {
        const auto its = plain_method(test.method);
        return its != method || (test.is_the_mills && !is_the_mills && its.empty());
    });
    return tests;
}

} // namespace

FatAcidityLine fat_acidity_line(const Estimate& estimate, std::span<const FatAcidityTest> tests, Day day,
                                FatAcidity limit) {
    const auto flour_class = estimate.flour().flour_class;
    std::vector<FatAcidityTest> taken;
    std::copy_if(tests.begin(), tests.end(), std::back_inserter(taken),
                 [&](const FatAcidityTest& test) { return test.taken_on <= day; });
    const auto counted = of_one_method(taken);
    std::vector<Point> points;
    for (const auto& test : counted)
        points.push_back({estimate.life_days(test.taken_on), test.value.value()});
    const auto lines = lines_through(points, fat_acidity_rise(flour_class).value(),
                                     lit::aging_fat_acidity_rise_gsd.value, usual_fresh(flour_class));
    const auto reached = [&](double share) -> std::optional<Day> {
        const auto line = at_share(lines, share);
        return estimate.first_day_of_life((limit.value() - line.base) / line.rise);
    };
    constexpr double early = 0.9, likely = 0.5, late = 0.1; // the fastest rise comes first
    const auto middle = at_share(lines, likely);
    return {FatAcidity{middle.base + middle.rise * estimate.life_days(day)},
            FatAcidity{middle.rise},
            {reached(early), reached(likely), reached(late)},
            points.size(),
            taken.size() - counted.size(),
            counted.empty() ? "" : counted.back().method,
            counted.empty() ? std::nullopt : std::optional{counted.front().value}};
}

} // namespace mellowbin::aging
