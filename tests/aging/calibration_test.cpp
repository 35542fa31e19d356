#include "aging/clocks.h"
#include "aging/flour.h"
#include "support/catch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

// Simulation-based calibration: what is doubtful is drawn from what is believed of it, results are made from
// it by sums written out here, and the estimate is asked where the truth lies in its belief. If the estimate
// is the posterior of its own model, the truth's ranks are uniform (Talts et al. 2018, arXiv:1804.06788), an
// 80 % interval holds the truth in 80 of 100, and the misses of an amplitude have the spread that is said.

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

constexpr double assumed_doubt = 3; // K
constexpr int log_begins = 8; // days after the delivery: then the flour moves to the place with a logger
constexpr int log_ends = 60;
constexpr double second_place = 23; // C, assumed of it
constexpr double most_head_start = 30;

/// What the logger of the second place read, days after the delivery.
double read_at(double day) { return 19 + 7 * std::sin(day * 0.13) + 0.1 * day; }

ClimatePtr logged() {
    Place place;
    place.temperature = Celsius{second_place};
    std::vector<ClimateReading> readings;
    for (int hour = log_begins * 24; hour <= log_ends * 24; hour += 12)
        readings.push_back({Instant{milled} + std::chrono::hours{hour}, Celsius{read_at(hour / 24.0)}, {}});
    return std::make_shared<ClimateCourse>(place, readings);
}

/// Lots of four kinds take turns.
struct Kind {
    Air first; ///< breathable bags in the second place
    bool is_milling_known;
    double first_place = 14; ///< C, assumed of it
};
constexpr std::array kinds{Kind{Air::breathable_bag, true}, Kind{Air::breathable_bag, false},
                           Kind{Air::sealed_liner, true}, Kind{Air::breathable_bag, true, 3}};

StoredFlour flour_of(const Kind& kind, const ClimatePtr& second) {
    auto flour = stored_flour();
    flour.path =
        then(stay_from(milled, climate_at(Celsius{kind.first_place}, kind.first)), day(log_begins), second);
    flour.assumed_doubt = CelsiusStep{assumed_doubt};
    if (!kind.is_milling_known)
        flour.milled_on.reset();
    return flour;
}

/// Draws of everything doubtful, and what followed from them.
class Truth {
public:
    Truth(const Kind& kind, std::mt19937& random) : kind_(kind) {
        const auto priors = published_priors(FlourClass::white);
        std::normal_distribution<double> normal;
        const auto drawn = [&](Lognormal belief) {
            return belief.median * std::pow(belief.gsd, normal(random));
        };
        rate_ = drawn(priors.k20);
        q10_ = drawn(priors.q10);
        cold_ = drawn(priors.cold_q10);
        own_rate_ = drawn(maturing_test(Property::glutathione)->own_rate);
        air_ = drawn(priors.air_factor(kind.first));
        warmer_ = assumed_doubt * normal(random);
        if (!kind.is_milling_known)
            head_ = std::uniform_real_distribution<double>(0, most_head_start)(random);
    }

    /// Days after the delivery; in steps of at most an hour, each at its middle.
    [[nodiscard]] double run(double days) const {
        const double shift = std::pow(q10_, warmer_ / 10);
        const double first_shift = kind_.first_place < 10 ? std::pow(cold_, warmer_ / 10) : shift;
        double run = std::max(head_ + std::min(days, 0.0), 0.0) * air_ * shift;
        run += std::clamp(days, 0.0, double(log_begins)) * air_ * first_shift * speed(kind_.first_place);
        for (double from = log_begins; from < std::min(days, double(log_ends)); from += 1 / 24.0) {
            const double until = std::min({from + 1 / 24.0, days, double(log_ends)});
            run += (until - from) * speed(read_at((from + until) / 2));
        }
        run += std::max(days - log_ends, 0.0) * shift * speed(second_place);
        return run;
    }
    [[nodiscard]] double theta(double days) const { return rate_ * run(days); }
    /// Of what glutathione loses, at its own rate.
    [[nodiscard]] double lost_share(double days) const { return 1 - std::exp(-own_rate_ * run(days)); }
    [[nodiscard]] double mature_share(double days) const { return 1 - std::exp(-theta(days)); }
    /// When it reached a theta, days after the delivery.
    [[nodiscard]] double reached(double level) const {
        double before = -most_head_start, after = 5000;
        while (after - before > 1e-3)
            (theta((before + after) / 2) < level ? before : after) = (before + after) / 2;
        return after;
    }
    [[nodiscard]] double log_rate() const { return std::log(rate_); }

private:
    [[nodiscard]] double speed(double temperature) const {
        const double warm = std::max(temperature, 10.0);
        return std::pow(q10_, (warm - 20) / 10) * std::pow(cold_, (temperature - warm) / 10);
    }

    Kind kind_;
    double rate_ = 0, own_rate_ = 0, q10_ = 0, cold_ = 0, air_ = 0, warmer_ = 0, head_ = 0;
};

/// Results on some days of a property whose change is drawn as believed.
struct Tested {
    Series series;
    double amplitude;
};
Tested tested(Property property, std::initializer_list<int> days, const Truth& truth, std::mt19937& random) {
    const auto& test = *maturing_test(property);
    std::normal_distribution<double> normal;
    Tested made{{property, test.published, test.error, {}, test.follows, test.own_rate},
                test.published.mean + test.published.sd * normal(random)};
    const double fresh = std::uniform_real_distribution<double>(100, 400)(random);
    for (int on : days)
        made.series.observations.push_back(
            {fresh *
                 (1 + made.amplitude *
                          (test.follows == Follows::dough ? truth.mature_share(on) : truth.lost_share(on))) *
                 std::exp(test.error * normal(random)),
             days_of(day(on)),
             false,
             {}});
    return made;
}

/// The probability that the lot has reached a theta at a moment between two days.
double probability_at(const Estimate& estimate, double theta, double days) {
    const int before = static_cast<int>(std::floor(days));
    const Maturity level{1 - std::exp(-theta)};
    return std::lerp(estimate.probability_of(level, day(before)),
                     estimate.probability_of(level, day(before + 1)), days - before);
}

double chi_square(const std::vector<double>& ranks, int bins) {
    std::vector<int> counts(static_cast<std::size_t>(bins));
    for (const double rank : ranks)
        ++counts[static_cast<std::size_t>(std::clamp(static_cast<int>(rank * bins), 0, bins - 1))];
    const double expected = static_cast<double>(ranks.size()) / bins;
    double sum = 0;
    for (const int count : counts)
        sum += (count - expected) * (count - expected) / expected;
    return sum;
}

} // namespace

TEST_CASE("Drawn from its own beliefs, the estimate is calibrated") {
    constexpr int draws = 3000;
    constexpr int later = 20;                       // days after the delivery
    constexpr double limit_19_at_1_percent = 36.19; // chi-square of 19 degrees of freedom
    std::mt19937 random(20261125);
    const auto second = logged();
    const auto priors = published_priors(FlourClass::white);
    std::vector<double> ranks;
    int held = 0;
    double miss = 0, square = 0;
    for (int i = 0; i < draws; ++i) {
        const Kind& kind = kinds[static_cast<std::size_t>(i) % kinds.size()];
        const Truth truth(kind, random);
        const auto glutathione = tested(Property::glutathione, {1, 9, 25}, truth, random);
        const auto resistance = tested(Property::extensograph_resistance, {3, 25}, truth, random);
        const Estimate estimate{flour_of(kind, second), priors, {glutathione.series, resistance.series}};
        const Maturity then{std::min(truth.mature_share(later), std::nextafter(1.0, 0.0))};
        ranks.push_back(1 - estimate.probability_of(then, day(later)));
        const double level = theta_for(nine_tenths);
        const double by_then = probability_at(estimate, level, truth.reached(level));
        held += by_then >= 0.1 && by_then <= 0.9;
        const auto amplitude = estimate.property(glutathione.series, {}).amplitude;
        const double off = (glutathione.amplitude - amplitude.mean) / amplitude.sd;
        miss += off;
        square += off * off;
    }
    const double chi = chi_square(ranks, 20);
    const double coverage = static_cast<double>(held) / draws;
    INFO("chi-square " << chi << ", coverage " << coverage << ", amplitude's misses: mean " << miss / draws
                       << ", mean square " << square / draws);
    CHECK(chi < limit_19_at_1_percent);
    CHECK(coverage >= 0.78);
    CHECK(coverage <= 0.82);
    // Of the amplitude the estimate says mean and sd only, so no ranks: its misses in sds have mean 0 and
    // mean square 1 whatever its shape is; three standard errors of a normal's.
    CHECK(std::abs(miss / draws) < 3 / std::sqrt(draws));
    CHECK(std::abs(square / draws - 1) < 3 * std::sqrt(2.0 / draws));
}
