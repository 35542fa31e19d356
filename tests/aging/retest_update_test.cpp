#include "aging/clocks.h"
#include "aging/flour.h"
#include "aging/retest_worth.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>

// What results say of the rate. The update itself is checked against figures worked out elsewhere in
// fixtures/published/aging_retest_arithmetic.csv.

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

const Priors white = published_priors(FlourClass::white);

struct Tested {
    int day; ///< after the milling, or the delivery where the milling is not known
    double value;
};
Series series(Property property, std::initializer_list<Tested> results) {
    const auto& test = *maturing_test(property);
    Series made{property, test.published, test.error, {}};
    for (const auto& result : results)
        made.observations.push_back({result.value, days_of(day(result.day)), false, {}});
    return made;
}
/// A large change that is well known, taken as if it followed the dough: what the update does with one.
Series telling(std::initializer_list<Tested> results) { return series(Property::glutathione, results); }
Series resistance(std::initializer_list<Tested> results) {
    return series(Property::extensograph_resistance, results);
}

MeanAndSpread rate(const Evidence& evidence, const StoredFlour& flour = stored_flour()) {
    return Estimate{flour, white, evidence}.log_rate();
}

/// A logger's hourly 20 C from the milling to a day, with nothing in between two days.
StoredFlour logged_until(int until, int gap_from = 0, int gap_until = 0) {
    std::vector<ClimateReading> readings;
    for (int hour = 0; hour <= until * 24; ++hour)
        if (hour <= gap_from * 24 || hour >= gap_until * 24)
            readings.push_back({Instant{milled} + std::chrono::hours{hour}, Celsius{20}, {}});
    auto flour = stored_flour();
    flour.path = stay_from(milled, std::make_shared<ClimateCourse>(Place{}, readings));
    flour.assumed_doubt = published_assumed_doubt();
    return flour;
}

} // namespace

TEST_CASE("One result alone says nothing, to the last bit") {
    const auto alone = rate({telling({{8, 105}})});
    CHECK(alone.mean == rate({}).mean);
    CHECK(alone.sd == rate({}).sd);
}

TEST_CASE("Results of one day say nothing of the rate, however far they are apart") {
    const auto same = rate({telling({{8, 105}, {8, 100}})});
    CHECK(same.mean == Approx(rate({}).mean).margin(1e-4));
    CHECK(same.sd == Approx(rate({}).sd).margin(1e-3));
}

TEST_CASE("The baseline is not known: twice every result says the same of the rate") {
    const auto once = rate({telling({{1, 70}, {8, 52.5}, {20, 48}})});
    const auto twice = rate({telling({{1, 140}, {8, 105}, {20, 96}})});
    CHECK(twice.mean == Approx(once.mean).margin(1e-5));
    CHECK(twice.sd == Approx(once.sd).margin(1e-5));
}

TEST_CASE("The order in which properties and results are written down changes the last figures at most") {
    const auto g = telling({{1, 140}, {8, 105}, {20, 90}});
    const auto r = resistance({{2, 300}, {12, 330}});
    auto shuffled = g;
    std::swap(shuffled.observations[0], shuffled.observations[2]);
    const auto one = rate({g, r}), other = rate({r, shuffled});
    CHECK(one.mean == Approx(other.mean).margin(1e-5));
    CHECK(one.sd == Approx(other.sd).margin(1e-5));
}

TEST_CASE("A pair of tests of a large, well-known change says much of the rate, one of alveograph W next to "
          "nothing") {
    const double before = rate({}).sd;
    CHECK(rate({telling({{1, 140}, {8, 105}})}).sd < 0.75 * before);
    CHECK(rate({series(Property::alveograph_w, {{2, 280}, {14, 290}})}).sd > 0.95 * before);
}

TEST_CASE("Glutathione as it is shipped leaves the dough's rate alone, to the last bit, however it fell") {
    const auto& test = *maturing_test(Property::glutathione);
    for (const double second : {149.0, 120.0, 88.0}) {
        Series own{test.property, test.published, test.error, {}, test.follows, test.own_rate};
        for (const auto& [on, value] : {std::pair{0, 149.0}, {4, second}, {10, 86.0}})
            own.observations.push_back({value, days_of(day(on)), false, {}});
        const Estimate with{stored_flour(), white, {own}}, without{stored_flour()};
        CHECK(with.log_rate().mean == without.log_rate().mean);
        CHECK(with.log_rate().sd == without.log_rate().sd);
        CHECK(with.first_day_of(nine_tenths, 0.8) == without.first_day_of(nine_tenths, 0.8));
    }
}

TEST_CASE(
    "Its own course goes at its own rate: 88 nmol/g on day 10 and 85 on day 40, where dough is half way") {
    // Chen & Schofield 1996: 149 to 85 nmol/g in ten days at 20 C, then constant.
    const auto& test = *maturing_test(Property::glutathione);
    Series own{test.property, test.published, test.error, {}, test.follows, test.own_rate};
    for (const auto& [on, value] : {std::pair{0, 149.0}, {10, 86.0}})
        own.observations.push_back({value, days_of(day(on)), false, {}});
    const Estimate estimate{stored_flour(), white, {own}};
    const double moments[] = {days_of(day(10)), days_of(day(40))};
    const auto levels = estimate.property(own, moments).levels;
    CHECK(std::exp(levels[0].mean) == Approx(87).margin(2));
    CHECK(std::exp(levels[1].mean) == Approx(83).margin(4));
    CHECK(estimate.maturity_at(0.5, day(10)).value() < 0.6);
    CHECK(value_when_fresh(estimate, Property::glutathione, 88.1, day(10)) == Approx(149).margin(0.2));
}

TEST_CASE("Drifts are no evidence either: wet gluten and gluten index move no ready date") {
    Evidence drifts;
    for (const auto property : {Property::wet_gluten, Property::gluten_index}) {
        const auto& test = *maturing_test(property);
        CHECK(test.follows == Follows::drift);
        Series one{property, test.published, test.error, {}, test.follows, test.own_rate};
        for (const auto& [on, value] : {std::pair{0, 30.0}, {20, 27.0}})
            one.observations.push_back({value, days_of(day(on)), false, {}});
        drifts.push_back(one);
    }
    CHECK(rate(drifts).mean == rate({}).mean);
    CHECK(rate(drifts).sd == rate({}).sd);
    CHECK(surprises(stored_flour(), white, drifts).empty());
    for (const auto& worth : retest_worth(stored_flour(), white, drifts, day(25)))
        CHECK(maturing_test(worth.property)->follows != Follows::drift);
    // The drift is shown through the dough's own maturity: -3.5 % of wet gluten, 4 % give or take.
    const Estimate estimate{stored_flour(), white, drifts};
    CHECK(estimate.property(drifts[0], {}).amplitude.mean < -0.035);
    CHECK(!maturing_test(Property::falling_number));
}

TEST_CASE("Two properties together say more than either") {
    const auto g = telling({{1, 140}, {8, 105}});
    const auto r = resistance({{2, 300}, {12, 340}, {16, 345}, {25, 350}});
    const double both = rate({g, r}).sd;
    CHECK(both < rate({g}).sd);
    CHECK(both < rate({r}).sd);
}

TEST_CASE("A fast change makes a lot sooner ready, a slow one later") {
    const auto ready = [](double second) {
        const Evidence evidence{telling({{1, 140}, {8, second}, {25, 84}})};
        return *Estimate{stored_flour(), white, evidence}.first_day_of(nine_tenths, 0.5);
    };
    CHECK(ready(88) < *Estimate{stored_flour()}.first_day_of(nine_tenths, 0.5));
    CHECK(ready(125) > *Estimate{stored_flour()}.first_day_of(nine_tenths, 0.5));
}

TEST_CASE("Absorption counts in points: the posterior is the closed form's, whatever the level") {
    // y2 - y1 = a (M2 - M1) + noise: normal with variance 1.3^2 (M2 - M1)^2 + 2 x 0.5^2 about 0.
    const double difference = 2.5;
    double sum = 0, mean = 0, square = 0;
    for (int i = -400; i <= 400; ++i) {
        const double z = 4 * i / 400.0;
        const double k = white.k20.median * std::pow(white.k20.gsd, z);
        const double step = std::exp(-2 * k) - std::exp(-15 * k);
        const double variance = 1.69 * step * step + 0.5;
        const double weight =
            std::exp(-z * z / 2 - difference * difference / variance / 2) / std::sqrt(variance);
        sum += weight;
        mean += weight * std::log(k);
        square += weight * std::log(k) * std::log(k);
    }
    mean /= sum;
    for (const double level : {58.0, 62.0}) {
        const auto found = rate({series(Property::absorption, {{2, level}, {15, level + difference}})});
        CHECK(found.mean == Approx(mean).margin(0.001));
        CHECK(found.sd == Approx(std::sqrt(square / sum - mean * mean)).margin(0.001));
    }
}

TEST_CASE("A certificate of the mill stands for maturity 0") {
    auto at_mill = telling({{0, 149}, {8, 105}, {20, 90}});
    const auto tested_on_milling = rate({at_mill});
    at_mill.observations[0].is_fresh = true;
    CHECK(rate({at_mill}).mean == tested_on_milling.mean);
    CHECK(rate({at_mill}).sd == tested_on_milling.sd);
    // Of unknown milling, the loss until the delivery shows that it was not fresh any more.
    const auto mature_on_delivery = [](double on_delivery) {
        auto results = telling({{0, 149}, {0, on_delivery}});
        results.observations[0].is_fresh = true;
        return Estimate{of_unknown_milling(), white, {results}}.mean_maturity(day(0)).value();
    };
    CHECK(mature_on_delivery(88) > 0.8);
    CHECK(mature_on_delivery(148) < 0.35);
}

TEST_CASE("A sample of one place follows that place's flour, not the lot's mean") {
    auto results = telling({{1, 140}, {8, 105}});
    const auto warm = stored_at(Celsius{30});
    for (auto& observation : results.observations)
        observation.path = warm.path;
    const auto own = rate({results}, stored_at(Celsius{10}));
    CHECK(own.mean == Approx(rate({telling({{1, 140}, {8, 105}})}, warm).mean).margin(1e-9));
    CHECK(own.mean < rate({telling({{1, 140}, {8, 105}})}, stored_at(Celsius{10})).mean);
}

TEST_CASE(
    "Unknown milling and an uncertain Q10 are carried: the posterior is a dense sum's over all of them") {
    const std::vector<Tested> results{{1, 120}, {6, 104}, {20, 90}};
    auto flour = of_unknown_milling();
    flour.path = stay_from(milled, climate_at(Celsius{28}));
    const Evidence evidence{telling({results[0], results[1], results[2]})};
    const Estimate estimate{flour, white, evidence};

    double sum = 0, mean = 0, square = 0, mature = 0;
    const auto loss = [](double log_amplitude, double theta) {
        return std::log1p(log_amplitude * (1 - std::exp(-theta)));
    };
    for (int q = -8; q <= 8; ++q)
        for (int h = 0; h < 20; ++h)
            for (int u = -30; u <= 30; ++u) {
                const double z_q = q / 2.0, z = u / 7.5, head = 30 * (h + 0.5) / 20;
                const double k = white.k20.median * std::pow(white.k20.gsd, z);
                const double hot = std::pow(white.q10.median * std::pow(white.q10.gsd, z_q), 0.8);
                double likelihood = 0;
                for (int a = -16; a <= 16; ++a) {
                    const double z_a = a / 4.0, amplitude = -0.43 + 0.10 * z_a;
                    double residual[3], middle = 0, misfit = 0;
                    for (std::size_t i = 0; i < 3; ++i) {
                        const double theta = k * (head + hot * results[i].day);
                        residual[i] = std::log(results[i].value) - loss(amplitude, theta);
                        middle += residual[i] / 3;
                    }
                    for (const double r : residual)
                        misfit += (r - middle) * (r - middle);
                    likelihood += std::exp(-z_a * z_a / 2 - misfit / (2 * 0.05 * 0.05));
                }
                const double weight = likelihood * std::exp(-(z_q * z_q + z * z) / 2);
                sum += weight;
                mean += weight * std::log(k);
                square += weight * std::log(k) * std::log(k);
                mature += weight * (1 - std::exp(-k * (head + hot * 10)));
            }
    mean /= sum;
    CHECK(estimate.log_rate().mean == Approx(mean).margin(0.003));
    CHECK(estimate.log_rate().sd == Approx(std::sqrt(square / sum - mean * mean)).margin(0.003));
    CHECK(estimate.mean_maturity(day(10)).value() == Approx(mature / sum).margin(0.001));
}

TEST_CASE("A gap in the log widens the day of being ready, and no log at all widens it more") {
    auto priors = white;
    priors.k20.gsd = 1.2; // a plant that knows its rate, so that the rest of the doubt shows in days
    const auto width = [&](const StoredFlour& flour) { return ready_width(Estimate{flour, priors}); };
    const double measured = width(logged_until(730));
    const double gap = width(logged_until(730, 5, 25));
    auto unlogged = stored_flour();
    unlogged.assumed_doubt = published_assumed_doubt();
    CHECK(measured == width(stored_flour())); // at a temperature that is known
    CHECK(gap > measured);
    CHECK(width(unlogged) > gap);
}

TEST_CASE("After results, too, a lot of unmeasured storage is less surely ready") {
    const Evidence evidence{telling({{1, 140}, {8, 105}, {20, 90}})};
    const auto width = [&](const StoredFlour& flour) {
        return ready_width(Estimate{flour, white, evidence});
    };
    CHECK(width(logged_until(730)) < width(logged_until(5)));
}

TEST_CASE("A result more than three standard errors off is reported, and counts all the same") {
    const Evidence fitting{telling({{1, 140}, {8, 107}, {12, 99}, {20, 90}})};
    for (const auto& surprise : surprises(stored_flour(), white, fitting))
        CHECK(std::abs(surprise.standard_errors) < check_from());
    const Evidence odd{telling({{1, 140}, {8, 107}, {12, 140}, {20, 90}})};
    const auto found = surprises(stored_flour(), white, odd);
    REQUIRE(found.size() == 4);
    CHECK(check_from() == 3);
    const auto worst = std::max_element(found.begin(), found.end(), [](const Surprise& a, const Surprise& b) {
        return std::abs(a.standard_errors) < std::abs(b.standard_errors);
    });
    CHECK(worst->observation == 2);
    CHECK(worst->standard_errors > check_from()); // above what the others say
    CHECK(rate(odd).mean < rate(fitting).mean - 0.01);
}

TEST_CASE("A surprise's standard errors are those of a dense prediction from the other results") {
    // One other result only: nothing but the prior predicts the second, so normal sums over a and u do.
    const Evidence two{telling({{1, 140}, {30, 150}})};
    double sum = 0, mean = 0, square = 0;
    for (int a = -40; a <= 40; ++a)
        for (int u = -40; u <= 40; ++u) {
            const double z_a = a / 10.0, z = u / 10.0;
            const double k = white.k20.median * std::pow(white.k20.gsd, z), change = -0.43 + 0.1 * z_a;
            const double weight = std::exp(-(z_a * z_a + z * z) / 2);
            const double step =
                std::log1p(change * (1 - std::exp(-30 * k))) - std::log1p(change * (1 - std::exp(-k)));
            sum += weight;
            mean += weight * step;
            square += weight * step * step;
        }
    mean /= sum;
    const double sd = std::sqrt(square / sum - mean * mean + 2 * 0.05 * 0.05);
    const auto found = surprises(stored_flour(), white, two);
    REQUIRE(found.size() == 2);
    CHECK(found[1].standard_errors == Approx((std::log(150 / 140.0) - mean) / sd).epsilon(0.01));
}

TEST_CASE("A sample of a warm place is no surprise when its own flour's warmth explains it") {
    // The lot lies at 5 C, but for what went to 30 C; both parts of it lost what their warmth makes likely.
    const auto cold = stored_at(Celsius{5});
    const auto warm = stored_at(Celsius{30});
    const auto likely = [](const StoredFlour& flour, int on) {
        return 150 * (1 - 0.43 * Estimate{flour}.maturity_at(0.5, day(on)).value());
    };
    auto results =
        telling({{1, likely(cold, 1)}, {6, likely(cold, 6)}, {12, likely(cold, 12)}, {12, likely(warm, 12)}});
    results.observations.back().path = warm.path;
    for (const auto& surprise : surprises(cold, white, {results}))
        CHECK(std::abs(surprise.standard_errors) < 0.5);
}

TEST_CASE("The mill's figure is no surprise on a lot of unknown milling that lost some before it came") {
    auto results = telling({{0, 149}, {0, 100}, {5, 95}, {15, 88}});
    results.observations[0].is_fresh = true;
    for (const auto& surprise : surprises(of_unknown_milling(), white, {results}))
        CHECK(std::abs(surprise.standard_errors) < 1);
}
