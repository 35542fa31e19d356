#include "aging/clocks.h"
#include "aging/flour.h"
#include "support/catch.h"
#include "support/climate_year.h"

#include <algorithm>
#include <cmath>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <memory>

// The clocks against somebody else's integration: the GNU Scientific Library's solver of ordinary
// differential equations, Prince and Dormand's method of order 8.

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

/// Days from the milling, temperatures as the logger read them.
struct Course {
    std::vector<double> at, temperature;
    double q10 = 1;
    double cold = 0;       ///< 0: the same all the way
    std::size_t piece = 0; ///< the one that is being integrated
    [[nodiscard]] double on_piece(std::size_t i, double days) const {
        return std::lerp(temperature[i], temperature[i + 1], (days - at[i]) / (at[i + 1] - at[i]));
    }
};

int speed(double days, const double[], double slope[], void* course_pointer) {
    const auto& course = *static_cast<const Course*>(course_pointer);
    const double t = std::min(course.on_piece(course.piece, days), 35.0);
    const double warm = course.cold > 0 ? std::max(t, 10.0) : t;
    slope[0] = std::pow(course.q10, (warm - 20) / 10);
    if (course.cold > 0)
        slope[0] *= std::pow(course.cold, (t - warm) / 10);
    return GSL_SUCCESS;
}

/// Days at 20 C up to each of the moments (ascending). The solver begins anew at each reading and where the
/// temperature crosses 10 or 35 C: there the speed has a kink.
std::vector<double> solved(Course course, const std::vector<double>& moments) {
    gsl_odeiv2_system system{speed, nullptr, 1, &course};
    const std::unique_ptr<gsl_odeiv2_driver, decltype(&gsl_odeiv2_driver_free)> driver(
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1e-3, 1e-14, 1e-13),
        gsl_odeiv2_driver_free);
    std::vector<double> answers;
    double sum[1] = {0};
    auto moment = moments.begin();
    for (course.piece = 0; course.piece + 1 < course.at.size() && moment != moments.end(); ++course.piece) {
        const double from = course.at[course.piece], until = course.at[course.piece + 1];
        const double a = course.temperature[course.piece], b = course.temperature[course.piece + 1];
        std::vector<double> stops{until};
        for (const double limit : {10.0, 35.0})
            if ((a - limit) * (b - limit) < 0)
                stops.push_back(from + (until - from) * (limit - a) / (b - a));
        for (auto m = moment; m != moments.end() && *m <= until; ++m)
            stops.push_back(*m);
        std::sort(stops.begin(), stops.end());
        double now = from;
        for (const double stop : stops) {
            gsl_odeiv2_driver_reset_hstart(driver.get(), 1e-3);
            if (stop > now && gsl_odeiv2_driver_apply(driver.get(), &now, stop, sum) != GSL_SUCCESS)
                return {}; // fails the count of answers
            if (moment != moments.end() && stop == *moment) {
                answers.push_back(sum[0]);
                ++moment;
            }
        }
    }
    return answers;
}

const std::vector<ClimateReading>& year() {
    static const auto readings = hourly_climate(milled, 366, 11);
    return readings;
}

Course course_of(const std::vector<ClimateReading>& readings, double q10, double cold = 0) {
    Course course;
    for (const auto& reading : readings) {
        course.at.push_back(days_of(reading.at) - days_of(milled));
        course.temperature.push_back(reading.temperature.value());
    }
    course.q10 = q10;
    course.cold = cold;
    return course;
}

ClimatePtr logged(const std::vector<ClimateReading>& readings, double otherwise, Air air = {}) {
    Place place;
    place.temperature = Celsius{otherwise};
    place.air = air;
    return std::make_shared<ClimateCourse>(place, readings);
}

StoredFlour flour_in(FlourClass flour_class, ClimatePtr climate) {
    auto flour = stored_flour(flour_class);
    flour.path = stay_from(milled, std::move(climate));
    return flour;
}

/// The largest relative error of ours.
template <class Ours>
double largest_error(const std::vector<double>& moments, double q10, Ours ours, double cold = 0) {
    const auto theirs = solved(course_of(year(), q10, cold), moments);
    REQUIRE(theirs.size() == moments.size());
    double largest = 0;
    for (std::size_t i = 0; i < moments.size(); ++i)
        largest = std::max(largest, std::abs(ours(moments[i]) / theirs[i] - 1));
    return largest;
}

} // namespace

TEST_CASE("The year of hourly temperatures crosses the join in the cold and the end of the clamp") {
    const auto by_temperature = [](const ClimateReading& a, const ClimateReading& b) {
        return a.temperature < b.temperature;
    };
    const auto [low, high] = std::minmax_element(year().begin(), year().end(), by_temperature);
    CHECK(low->temperature < Celsius{0});
    CHECK(high->temperature > Celsius{35});
}

TEST_CASE(
    "Over a year of hourly temperatures theta is the ODE solver's to 1e-9, for every Q10 that is averaged") {
    const auto climate = logged(year(), 20);
    const auto nodes = nodes_of(climate->factor(Clock::maturing).q10);
    const auto cold_nodes = nodes_of(*climate->factor(Clock::maturing).cold);
    for (std::size_t i = 0; i < nodes.count; ++i)
        for (std::size_t c = 0; c < cold_nodes.count; ++c) {
            const double q10 = std::exp(nodes.log_q10[i]);
            const double error = largest_error(
                {0.01, 0.52, 3.217, 28, 91.3, 200.77, 365}, q10,
                [&](double days) {
                    const auto run = climate->run(Clock::maturing, days_of(milled), days_of(milled) + days);
                    return run.all[i] + run.cold[c] / q10;
                },
                std::exp(cold_nodes.log_q10[c]));
            INFO("largest relative error " << error);
            CHECK(error < 1e-9);
        }
}

TEST_CASE("The estimate's own theta and age over that year are the ODE solver's to 1e-9") {
    for (const auto flour_class : {FlourClass::white, FlourClass::wholemeal}) {
        const Estimate estimate{flour_in(flour_class, logged(year(), 20))};
        const auto priors = published_priors(flour_class);
        const double of_theta = largest_error(
            {0.5, 14, 60.25, 365}, priors.q10.median,
            [&](double days) {
                return std::exp(estimate.run_slope({0, days_of(milled) + days, false, {}}).log_run);
            },
            priors.cold_q10.median);
        INFO("largest relative error of theta " << of_theta);
        CHECK(of_theta < 1e-9);
        const double of_age = largest_error({1, 30, 182, 365}, priors.life_q10.median, [&](double days) {
            return estimate.life_days(milled + Days{static_cast<int>(days)});
        });
        INFO("largest relative error of age " << of_age);
        CHECK(of_age < 1e-9);
    }
}

TEST_CASE("A lot that moves and is split runs as a plain sum over every minute of its parts says") {
    const auto other = hourly_climate(milled, 200, 12);
    const std::vector<ClimatePtr> climates{logged(year(), 20), logged(other, 12, Air::sealed_liner),
                                           climate_at(Celsius{26})};
    // 10 t in place 1; 4 t go to place 2 on the 10th day and a half; half of those on to place 3 on the 40th.
    struct Move {
        int from, to;
        double tonnes, on;
    };
    const Move moves[] = {{0, 1, 10, 0}, {1, 2, 4, 10.5}, {2, 3, 2, 40}};
    std::vector<Movement> movements;
    for (const auto& move : moves) {
        Movement movement;
        movement.id = MovementId{static_cast<std::int64_t>(movements.size()) + 1};
        movement.kind = move.from ? MovementKind::move : MovementKind::receipt;
        if (move.from)
            movement.from = PlaceId{move.from};
        movement.to = PlaceId{move.to};
        movement.mass = Grams{std::llround(move.tonnes * 1e6)};
        movement.at = Instant{milled} + std::chrono::minutes{std::llround(move.on * 1440)};
        movements.push_back(movement);
    }
    std::vector<const Movement*> pointers;
    for (const auto& movement : movements)
        pointers.push_back(&movement);
    auto flour = stored_flour();
    flour.path = follow_lot(milled, PlaceId{1}, pointers, [&](PlaceId id) {
                     return climates[static_cast<std::size_t>(id.number() - 1)];
                 }).whole;
    const Estimate estimate{flour};

    const auto priors = published_priors(FlourClass::white);
    const Course first = course_of(year(), 1), second = course_of(other, 1);
    const auto read = [](const Course& course, double days) {
        return course.on_piece(static_cast<std::size_t>(days * 24), days);
    };
    const auto minute = [&](int place, double days) {
        const double t = place == 1 ? read(first, days) : place == 2 ? read(second, days) : 26;
        return maturing_speed_at(Celsius{t}, medians_of(priors)) *
               (place == 2 ? priors.air_factor(Air::sealed_liner).median : 1);
    };
    double plain = 0;
    for (int m = 0; m < 70 * 1440; ++m) {
        const double days = (m + 0.5) / 1440;
        const int parts[] = {1, days < 10.5 ? 1 : 2, days < 10.5 ? 1 : days < 40 ? 2 : 3};
        plain +=
            (0.6 * minute(parts[0], days) + 0.2 * minute(parts[1], days) + 0.2 * minute(parts[2], days)) /
            1440;
    }
    const double ours = std::exp(estimate.run_slope({0, days_of(milled) + 70, false, {}}).log_run);
    INFO("relative error " << ours / plain - 1);
    CHECK(ours == Approx(plain).epsilon(1e-6));
}
