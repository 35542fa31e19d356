#include "aging/clocks.h"
#include "aging/flour.h"
#include "aging/retest_worth.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

const Priors white = published_priors(FlourClass::white);

/// The first results of a lot that was tested for everything on one day.
Evidence first_results(int on = 1) {
    Evidence evidence;
    for (const auto& test : maturing_tests())
        evidence.push_back({test.property,
                            test.published,
                            test.error,
                            {{100, days_of(day(on)), false, {}}},
                            test.follows,
                            test.own_rate});
    return evidence;
}

/// A large change that is well known, taken as if it followed the dough: what a telling test would be worth.
Series telling(std::initializer_list<std::pair<int, double>> results) {
    const auto& test = *maturing_test(Property::glutathione);
    Series series{test.property, test.published, test.error, {}};
    for (const auto& [on, value] : results)
        series.observations.push_back({value, days_of(day(on)), false, {}});
    return series;
}

const RetestWorth& of(const std::vector<RetestWorth>& worth, Property property) {
    return *std::find_if(worth.begin(), worth.end(), [&](auto& one) { return one.property == property; });
}

} // namespace

TEST_CASE("No test of any property is expected to widen the day of being ready by more than 2 %") {
    for (const auto& flour : {stored_flour(), stored_at(Celsius{12}), of_unknown_milling()})
        for (const int on : {3, 10, 25})
            for (const auto& worth : retest_worth(flour, white, first_results(), day(on))) {
                INFO(traits(worth.property).key << " on day " << on);
                CHECK(worth.days_expected <= 1.02 * worth.days_now);
                CHECK(worth.days_now == ready_width(Estimate{flour}));
            }
}

TEST_CASE("A glutathione test is worth nothing for the ready date, and no drift stands among the tests") {
    const auto worth = retest_worth(stored_flour(), white, first_results(), day(8));
    CHECK(of(worth, Property::glutathione).days_expected == of(worth, Property::glutathione).days_now);
    CHECK(worth.back().property == Property::glutathione);
    CHECK(worth.back().says_nothing);
    for (const auto& one : worth)
        CHECK(maturing_test(one.property)->follows != Follows::drift);
}

TEST_CASE("What follows the dough and changes much for its error would be worth far more than alveograph W") {
    const auto worth = [](const Series& first) {
        const auto found = retest_worth(stored_flour(), white, {first}, day(8));
        return of(found, first.property).days_now - of(found, first.property).days_expected;
    };
    const auto& w = *maturing_test(Property::alveograph_w);
    const double by_w = worth({w.property, w.published, w.error, {{280, days_of(day(1)), false, {}}}});
    CHECK(worth(telling({{1, 140}})) > 10);
    CHECK(worth(telling({{1, 140}})) > 5 * by_w);
}

TEST_CASE("A property without a first result says so, promises nothing and stands at the end") {
    const auto worth = retest_worth(stored_flour(), white, {telling({{1, 140}})}, day(8));
    const auto tests = maturing_tests();
    CHECK(std::ssize(worth) == std::count_if(tests.begin(), tests.end(), [](const MaturingTest& test) {
              return test.follows != Follows::drift;
          }));
    CHECK(worth.front().property == Property::glutathione);
    CHECK_FALSE(worth.front().needs_a_first);
    for (std::size_t i = 1; i < worth.size(); ++i) {
        CHECK(worth[i].needs_a_first);
        CHECK(worth[i].days_expected == worth[i].days_now);
    }
}

TEST_CASE("A test on the very day of the first one is worth next to nothing") {
    const auto worth = retest_worth(stored_flour(), white, {telling({{1, 140}})}, day(1));
    CHECK(worth.front().days_expected == Approx(worth.front().days_now).epsilon(0.01));
}

TEST_CASE("Among the days for a second test one between the first and ripeness is worth most") {
    const auto expected = [](int on) {
        return retest_worth(stored_flour(), white, {telling({{1, 140}})}, day(on)).front().days_expected;
    };
    CHECK(expected(12) < expected(3));
    CHECK(expected(12) < expected(150));
}

TEST_CASE("The expectation is the mean over simulated results, within the noise of simulating and 3 %") {
    // From the first result on nothing is learned, so the truth is drawn from what is published: rate and
    // change; the first result's own error stands in the baseline.
    const int first = 1, second = 9;
    const auto series = telling({{first, 140}});
    const double expected = retest_worth(stored_flour(), white, {series}, day(second)).front().days_expected;
    std::mt19937 random(42);
    std::normal_distribution<double> normal;
    constexpr int draws = 1500;
    double sum = 0, square = 0;
    for (int i = 0; i < draws; ++i) {
        const double k = white.k20.median * std::pow(white.k20.gsd, normal(random));
        const double change = series.amplitude.mean + series.amplitude.sd * normal(random);
        const auto level = [&](int on) { return 1 + change * (1 - std::exp(-k * on)); };
        const double error = series.error * std::sqrt(2.0) * normal(random);
        const double value = 140 * level(second) / level(first) * std::exp(error);
        const Evidence after{telling({{first, 140}, {second, value}})};
        const double width = ready_width(Estimate{stored_flour(), white, after});
        sum += width;
        square += width * width;
    }
    const double mean = sum / draws;
    const double noise = std::sqrt((square / draws - mean * mean) / draws);
    INFO("expected " << expected << ", simulated " << mean << " +- " << noise);
    CHECK(std::abs(expected - mean) < 3 * noise + 0.03 * mean);
}

TEST_CASE("A day of being ready beyond the studied time counts as its end") {
    const Estimate cold{stored_at(Celsius{0}, Air::inert)};
    const auto early = cold.first_day_of(nine_tenths, 0.1);
    REQUIRE(early);
    REQUIRE_FALSE(cold.first_day_of(nine_tenths, 0.9));
    CHECK(ready_width(cold) == static_cast<double>((cold.last_day_studied() - *early).count()));
}
