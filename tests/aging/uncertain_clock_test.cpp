#include "aging/flour.h"
#include "aging/uncertain_clock.h"
#include "core/normal.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

constexpr Lognormal rate{0.082, 2.0};
constexpr Lognormal q10{1.85, 1.2}, cold{2.5, 1.36};
constexpr double zero = 20000; // days from 1970

/// From so many days after zero on, at so many steps of 10 K from 20 C.
struct Part {
    double start;
    double steps;
    Air air = Air::breathable_bag;
};

Lognormal factor_of(Air air) { return published_priors(FlourClass::white).air_factor(air); }

ClockPath path_of(std::span<const Part> parts, double most_head_start = 0) {
    ClockPath path;
    path.zero = zero;
    path.factor = {q10, cold};
    path.air = published_priors(FlourClass::white).air;
    path.most_head_start = most_head_start;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double until = i + 1 < parts.size() ? zero + parts[i + 1].start : for_ever;
        path.path.push_back(
            {climate_at(Celsius{20 + 10 * parts[i].steps}, parts[i].air), zero + parts[i].start, until});
    }
    return path;
}

/// Mean of f over a standard normal, by 401 equal steps from -8 to 8.
template <class F> double dense_normal(F f) {
    double sum = 0;
    double weights = 0;
    for (int i = 0; i <= 400; ++i) {
        const double z = -8 + 16 * i / 400.0;
        const double weight = std::exp(-z * z / 2);
        sum += weight * f(z);
        weights += weight;
    }
    return sum / weights;
}

/// The clock's run for one draw of every doubtful thing but the rate, written out plainly.
double plain_run(std::span<const Part> path, double days, double z_q, double z_air, double head_days,
                 double z_cold = 0) {
    const double q = q10.median * std::pow(q10.gsd, z_q);
    const double in_the_cold = cold.median * std::pow(cold.gsd, z_cold);
    const auto speed = [&](double steps) {
        return std::pow(q, std::max(steps, -1.0)) * std::pow(in_the_cold, std::min(steps + 1, 0.0));
    };
    const auto factor = [&](Air air) { return factor_of(air).median * std::pow(factor_of(air).gsd, z_air); };
    double sum = head_days * factor(path.front().air);
    for (std::size_t i = 0; i < path.size() && path[i].start < days; ++i) {
        const double end = i + 1 < path.size() ? std::min(path[i + 1].start, days) : days;
        sum += (end - path[i].start) * factor(path[i].air) * speed(path[i].steps);
    }
    return sum;
}

/// Probability by dense sums over everything but the rate, which is a step function of its normal point.
double plain_probability(std::span<const Part> path, double most_head, double days, double level) {
    const int heads = most_head > 0 ? 60 : 1;
    double sum = 0;
    for (int h = 0; h < heads; ++h) {
        const double head_days = most_head * (h + 0.5) / heads;
        sum += dense_normal([&](double z_q) {
            return dense_normal([&](double z_air) {
                const double median = rate.median * plain_run(path, days, z_q, z_air, head_days);
                return normal_share(std::log(median / level) / std::log(rate.gsd));
            });
        });
    }
    return sum / heads;
}

} // namespace

TEST_CASE("The fixed quadratures integrate what they promise to, exactly") {
    double fourth = 0;
    double eighth = 0;
    for (std::size_t i = 0; i < over_normal.points.size(); ++i) {
        fourth += over_normal.weights[i] * std::pow(over_normal.points[i], 4);
        eighth += over_normal.weights[i] * std::pow(over_normal.points[i], 8);
    }
    CHECK(fourth == Approx(3));
    CHECK(eighth == Approx(105));
    double fifteenth = 0;
    for (std::size_t i = 0; i < over_uniform.points.size(); ++i)
        fifteenth += over_uniform.weights[i] * std::pow(over_uniform.points[i], 15);
    CHECK(fifteenth == Approx(1.0 / 16));
}

TEST_CASE("The normal point undoes the normal share") {
    for (double p : {1e-6, 0.01, 0.1, 0.2, 0.5, 0.8, 0.975, 1 - 1e-6}) {
        CHECK(normal_share(normal_point(p)) == Approx(p).epsilon(1e-9));
        CHECK(rough_normal_point(p) == Approx(normal_point(p)).margin(0.0005));
    }
    CHECK(normal_point(0.975) == Approx(1.959963985));
}

TEST_CASE("The quick probability equals a dense sum over every doubt, for one kind of air") {
    const Part path[] = {{0, -1, Air::sealed_liner}, {20, 0.6, Air::sealed_liner}};
    const UncertainClock clock{rate, path_of(path)};
    for (double days : {5.0, 15.0, 30.0, 60.0, 150.0})
        CHECK(clock.probability_of(std::log(10.0), zero + days) ==
              Approx(plain_probability(path, 0, days, std::log(10.0))).margin(1e-4));
}

TEST_CASE("For several kinds of air the quick probability is within half a percent of the dense sum") {
    const Part path[] = {{0, -0.5}, {15, 0.5, Air::sealed_liner}, {40, 0, Air::inert}};
    const UncertainClock clock{rate, path_of(path)};
    for (double days : {10.0, 25.0, 50.0, 120.0})
        CHECK(clock.probability_of(std::log(10.0), zero + days) ==
              Approx(plain_probability(path, 0, days, std::log(10.0))).margin(0.005));
}

TEST_CASE("Through the cold the quick probability equals a dense sum over both steepnesses") {
    const Part path[] = {{0, -2.4}, {60, -1.2}, {150, 0}};
    const UncertainClock clock{rate, path_of(path)};
    for (double days : {40.0, 100.0, 150.0, 170.0}) {
        const double dense = dense_normal([&](double z_q) {
            return dense_normal([&](double z_cold) {
                const double median = rate.median * plain_run(path, days, z_q, 0, 0, z_cold);
                return normal_share(std::log(median) / std::log(rate.gsd));
            });
        });
        CHECK(clock.probability_of(1, zero + days) == Approx(dense).margin(5e-4));
    }
}

TEST_CASE("Flour that never lay in the cold has no scenarios for it") {
    const Part warm[] = {{0, 0.5}}, cool[] = {{0, -1.01}};
    CHECK(Scenarios(path_of(warm), 0.7).count() == 3);
    CHECK(Scenarios(path_of(cool), 0.7).count() > 3);
}

TEST_CASE("An unknown head start is averaged as a dense sum averages it") {
    const Part path[] = {{0, 0.8}};
    const UncertainClock clock{rate, path_of(path, 30)};
    for (double days : {0.0, 3.0, 14.0, 40.0})
        CHECK(clock.probability_of(std::log(10.0), zero + days) ==
              Approx(plain_probability(path, 30, days, std::log(10.0))).margin(0.001));
}

TEST_CASE("The first day is the first: the day before it is not probable enough") {
    const Part path[] = {{0, -1.5}, {12, 1, Air::sealed_liner}, {30, -2}};
    for (double most : {0.0, 30.0}) {
        const UncertainClock clock{rate, path_of(path, most)};
        for (double level : {0.05, 0.7, 2.3})
            for (double probability : {0.01, 0.1, 0.5, 0.8, 0.9, 0.99}) {
                const auto day = clock.first_day(level, probability, zero, 5000);
                REQUIRE(day);
                CHECK(clock.probability_of(level, zero + *day) >= probability);
                if (*day > 0)
                    CHECK(clock.probability_of(level, zero + *day - 1) < probability);
            }
    }
}

TEST_CASE("A day after the last one looked at is no day") {
    const Part path[] = {{0, -2, Air::inert}};
    const UncertainClock clock{rate, path_of(path)};
    const auto day = clock.first_day(2.3, 0.8, zero, 5000);
    REQUIRE(day);
    CHECK(!clock.first_day(2.3, 0.8, zero, *day - 1));
    CHECK(clock.first_day(2.3, 0.8, zero, *day) == day);
}

TEST_CASE("Without doubt the clock is a plain clock") {
    const Part path[] = {{0, 0}};
    const UncertainClock clock{{0.1, 1}, path_of(path)};
    CHECK(clock.first_day(1, 0.5, zero, 100) == 10);
    CHECK(clock.first_day(1, 0.99, zero, 100) == 10);
    CHECK(clock.reading_at(0.9, zero + 30) == Approx(3));
}

TEST_CASE("The reading at a probability is the one that the clock is at or below with that probability") {
    const Part path[] = {{0, -0.5}, {15, 0.5, Air::sealed_liner}};
    for (double most : {0.0, 30.0}) {
        const UncertainClock clock{rate, path_of(path, most)};
        for (double days : {2.0, 25.0, 100.0})
            for (double p : {0.1, 0.5, 0.9})
                CHECK(1 - clock.probability_of(clock.reading_at(p, zero + days), zero + days) ==
                      Approx(p).margin(1e-4));
    }
}

TEST_CASE("The mean maturity equals a dense sum") {
    const Part path[] = {{0, 1}};
    const UncertainClock clock{rate, path_of(path)};
    const auto gained = [](double theta) { return 1 - std::exp(-theta); };
    for (double days : {3.0, 12.0, 30.0, 90.0}) {
        const double dense = dense_normal([&](double z_q) {
            return dense_normal([&](double z_rate) {
                return gained(rate.median * std::pow(rate.gsd, z_rate) * plain_run(path, days, z_q, 0, 0));
            });
        });
        CHECK(clock.mean_of(gained, zero + days) == Approx(dense).margin(0.002));
    }
}
