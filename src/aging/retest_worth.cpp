#include "aging/retest_worth.h"

#include "core/literature/constants.h"
#include "core/normal.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

/// What a test of the property would read in a sample, by the model: in ln, or in points.
MeanAndSpread predicted(const Estimate& estimate, const Series& series, const Observation& sample) {
    auto level = estimate.expected(series, sample);
    level.sd = std::hypot(level.sd, series.error);
    return level;
}

bool is_share(const Series& series) { return maturing_test(series.property)->change == ChangeKind::share; }

double reading_of(const Series& series, double level) { return is_share(series) ? std::exp(level) : level; }
double level_of(const Series& series, double reading) {
    return is_share(series) ? std::log(reading) : reading;
}

double expected_width(const StoredFlour& flour, const Priors& priors, const Evidence& evidence,
                      std::size_t series, const Estimate& today, double days, const CutPoints& cuts) {
    const auto to_come = predicted(today, evidence[series], {0, days, false, {}});
    double width = 0;
    for (std::size_t i = 0; i < over_normal.points.size(); ++i) {
        Evidence after = evidence;
        const double level = to_come.mean + to_come.sd * over_normal.points[i];
        after[series].observations.push_back({reading_of(evidence[series], level), days, false, {}});
        width += over_normal.weights[i] * ready_width(Estimate(flour, priors, after), cuts);
    }
    return width;
}

} // namespace

double check_from() { return lit::aging_check_from.value; }

double ready_width(const Estimate& estimate, const CutPoints& cuts) {
    constexpr double early = 0.1, late = 0.9;
    const Day end = estimate.last_day_studied();
    const Maturity mature{cuts.mature_maturity};
    return static_cast<double>((estimate.first_day_of(mature, late).value_or(end) -
                                estimate.first_day_of(mature, early).value_or(end))
                                   .count());
}

std::vector<RetestWorth> retest_worth(const StoredFlour& flour, const Priors& priors,
                                      const Evidence& evidence, Day day, const CutPoints& cuts) {
    const Estimate today(flour, priors, evidence);
    const double width = ready_width(today, cuts);
    std::vector<RetestWorth> worth;
    for (const auto& test : maturing_tests()) {
        if (test.follows == Follows::drift)
            continue;
        const auto at = std::find_if(evidence.begin(), evidence.end(),
                                     [&](const Series& series) { return series.property == test.property; });
        if (at == evidence.end()) {
            worth.push_back({test.property, width, width, true, test.follows == Follows::own_rate});
            continue;
        }
        if (at->follows == Follows::own_rate) {
            worth.push_back({test.property, width, width, false, true});
            continue;
        }
        const auto series = static_cast<std::size_t>(at - evidence.begin());
        worth.push_back({test.property, width,
                         expected_width(flour, priors, evidence, series, today, days_of(day), cuts), false});
    }
    std::stable_sort(worth.begin(), worth.end(), [](const RetestWorth& a, const RetestWorth& b) {
        return std::tuple{a.says_nothing, a.needs_a_first, a.days_expected} <
               std::tuple{b.says_nothing, b.needs_a_first, b.days_expected};
    });
    return worth;
}

std::vector<Surprise> surprises(const StoredFlour& flour, const Priors& priors, const Evidence& evidence) {
    std::vector<Surprise> found;
    for (std::size_t s = 0; s < evidence.size(); ++s) {
        if (evidence[s].follows == Follows::drift)
            continue;
        for (std::size_t i = 0; i < evidence[s].observations.size() && evidence[s].observations.size() > 1;
             ++i) {
            Evidence others = evidence;
            const Observation one = others[s].observations[i];
            others[s].observations.erase(others[s].observations.begin() + static_cast<std::ptrdiff_t>(i));
            const auto expected = predicted(Estimate(flour, priors, others), others[s], one);
            found.push_back(
                {evidence[s].property, i, (level_of(evidence[s], one.value) - expected.mean) / expected.sd});
        }
    }
    return found;
}

} // namespace mellowbin::aging
