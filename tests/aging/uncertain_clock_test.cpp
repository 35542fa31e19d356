#include "aging/uncertain_clock.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin::aging;

namespace {

constexpr Lognormal rate{0.082, 2.0};
constexpr Lognormal q10{1.85, 1.2};
constexpr Lognormal bag{1, 1};
constexpr Lognormal sealed{0.8, 1.5};

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

/// The clock's reading for one draw of every doubtful thing, written out plainly.
double plain_reading(std::span<const Stretch> path, HeadStart head, double days, double z_rate, double z_q,
                     double z_air, double head_days) {
    const double q = q10.median * std::pow(q10.gsd, z_q);
    const auto speed = [&](const Stretch& s) {
        return rate.median * std::pow(rate.gsd, z_rate) * s.factor.median * std::pow(s.factor.gsd, z_air) *
               std::pow(q, s.steps_from_20);
    };
    double sum = head_days * speed(head.at);
    for (std::size_t i = 0; i < path.size() && path[i].start < days; ++i) {
        const double end = i + 1 < path.size() ? std::min(path[i + 1].start, days) : days;
        sum += (end - path[i].start) * speed(path[i]);
    }
    return sum;
}

/// Probability by dense sums over everything but the rate, which is a step function of its normal point.
double plain_probability(std::span<const Stretch> path, HeadStart head, double days, double level) {
    const int heads = head.most > 0 ? 60 : 1;
    double sum = 0;
    for (int h = 0; h < heads; ++h) {
        const double head_days = head.most * (h + 0.5) / heads;
        sum += dense_normal([&](double z_q) {
            return dense_normal([&](double z_air) {
                const double median = plain_reading(path, head, days, 0, z_q, z_air, head_days);
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
    const Stretch path[] = {{0, -1, sealed}, {20, 0.6, sealed}};
    const UncertainClock clock{rate, q10, path, {}};
    for (double days : {5.0, 15.0, 30.0, 60.0, 150.0})
        CHECK(clock.probability_of(std::log(10.0), days) ==
              Approx(plain_probability(path, {}, days, std::log(10.0))).margin(1e-4));
}

TEST_CASE("For several kinds of air the quick probability is within half a percent of the dense sum") {
    const Stretch path[] = {{0, -0.5, bag}, {15, 0.5, sealed}, {40, 0, {0.2, 2.0}}};
    const UncertainClock clock{rate, q10, path, {}};
    for (double days : {10.0, 25.0, 50.0, 120.0})
        CHECK(clock.probability_of(std::log(10.0), days) ==
              Approx(plain_probability(path, {}, days, std::log(10.0))).margin(0.005));
}

TEST_CASE("An unknown head start is averaged as a dense sum averages it") {
    const Stretch path[] = {{0, 0.8, bag}};
    const HeadStart head{30, {0, 0, bag}};
    const UncertainClock clock{rate, q10, path, head};
    for (double days : {0.0, 3.0, 14.0, 40.0})
        CHECK(clock.probability_of(std::log(10.0), days) ==
              Approx(plain_probability(path, head, days, std::log(10.0))).margin(0.001));
}

TEST_CASE("The first day is the first: the day before it is not probable enough") {
    const Stretch path[] = {{0, -1.5, bag}, {12, 1, sealed}, {30, -2, bag}};
    for (double most : {0.0, 30.0}) {
        const UncertainClock clock{rate, q10, path, {most, {0, 0, bag}}};
        for (double level : {0.05, 0.7, 2.3})
            for (double probability : {0.01, 0.1, 0.5, 0.8, 0.9, 0.99}) {
                const auto day = clock.first_day(level, probability, 5000);
                REQUIRE(day);
                CHECK(clock.probability_of(level, *day) >= probability);
                if (*day > 0)
                    CHECK(clock.probability_of(level, *day - 1) < probability);
            }
    }
}

TEST_CASE("A day after the last one looked at is no day") {
    const Stretch path[] = {{0, -2, {0.2, 2.0}}};
    const UncertainClock clock{rate, q10, path, {}};
    const auto day = clock.first_day(2.3, 0.8, 5000);
    REQUIRE(day);
    CHECK(!clock.first_day(2.3, 0.8, *day - 1));
    CHECK(clock.first_day(2.3, 0.8, *day) == day);
}

TEST_CASE("Without doubt the clock is a plain clock") {
    const Stretch path[] = {{0, 0, bag}};
    const UncertainClock clock{{0.1, 1}, {2, 1}, path, {}};
    CHECK(clock.first_day(1, 0.5, 100) == 10);
    CHECK(clock.first_day(1, 0.99, 100) == 10);
    CHECK(clock.reading_at(0.9, 30) == Approx(3));
}

TEST_CASE("The reading at a probability is the one that the clock is at or below with that probability") {
    const Stretch path[] = {{0, -0.5, bag}, {15, 0.5, sealed}};
    for (double most : {0.0, 30.0}) {
        const UncertainClock clock{rate, q10, path, {most, {0, 0, bag}}};
        for (double days : {2.0, 25.0, 100.0})
            for (double p : {0.1, 0.5, 0.9})
                CHECK(1 - clock.probability_of(clock.reading_at(p, days), days) == Approx(p).margin(1e-4));
    }
}

TEST_CASE("The mean maturity equals a dense sum") {
    const Stretch path[] = {{0, 1, bag}};
    const UncertainClock clock{rate, q10, path, {}};
    const auto gained = [](double theta) { return 1 - std::exp(-theta); };
    for (double days : {3.0, 12.0, 30.0, 90.0}) {
        const double dense = dense_normal([&](double z_q) {
            return dense_normal(
                [&](double z_rate) { return gained(plain_reading(path, {}, days, z_rate, z_q, 0, 0)); });
        });
        CHECK(clock.mean_of(gained, days) == Approx(dense).margin(0.002));
    }
}
