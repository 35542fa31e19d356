#include "aging/learning.h"
#include "aging/outlook.h"
#include "aging/retest_worth.h"
#include "support/climate_year.h"

#include <benchmark/benchmark.h>

#include <cmath>
#include <random>

/// All lots of a plant estimated anew: 5,000 lots, half a year of hourly climate in 12 places, 3 retests
/// each; and the same by a plain loop that integrates each lot's own path hour by hour.
namespace {

using namespace mellowbin;
using namespace mellowbin::aging;

constexpr int lot_count = 5000, place_count = 12, log_days = 182;
const Day log_start{date::year{2026} / 5 / 25};

struct Plant {
    std::vector<std::vector<ClimateReading>> logs;
    std::vector<Place> places;

    Plant() {
        for (int p = 0; p < place_count; ++p) {
            logs.push_back(hourly_climate(log_start, log_days, static_cast<unsigned>(p)));
            Place place;
            place.temperature = Celsius{18};
            place.humidity = RelativeHumidity{0.6};
            places.push_back(place);
        }
    }
    std::vector<ClimatePtr> courses() const {
        std::vector<ClimatePtr> courses;
        for (std::size_t p = 0; p < places.size(); ++p)
            courses.push_back(std::make_shared<ClimateCourse>(places[p], logs[p]));
        return courses;
    }
};

struct KnownLot {
    StoredFlour flour;
    Evidence evidence;
};

std::vector<KnownLot> lots_of(const std::vector<ClimatePtr>& courses) {
    std::mt19937 random(3);
    const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
    std::vector<KnownLot> lots;
    for (int i = 0; i < lot_count; ++i) {
        KnownLot lot;
        const Day milled = log_start + Days{pick(0, 150)};
        const Day delivered = milled + Days{pick(1, 5)};
        if (i % 20 != 0)
            lot.flour.milled_on = milled;
        lot.flour.delivered_on = delivered;
        lot.flour.moisture = Moisture{13.8};
        const double moved = days_of(delivered) + pick(3, 20) + 0.37;
        lot.flour.path = {{courses[static_cast<std::size_t>(pick(0, 11))], days_of(delivered), moved, 1},
                          {courses[static_cast<std::size_t>(pick(0, 11))], moved, for_ever, 1}};
        Series series{Property::extensograph_resistance, {0.15, 0.12}, 0.06, {}};
        for (int t = 0; t < 3; ++t)
            series.observations.push_back({300.0 + pick(0, 40), days_of(delivered) + 1 + 9 * t, false, {}});
        lot.evidence.push_back(series);
        lots.push_back(std::move(lot));
    }
    return lots;
}

const Day asked{date::year{2026} / 11 / 25};

/// From readings to outlooks, nothing kept from before.
void all_lots_cold(benchmark::State& state) {
    const Plant plant;
    for (auto _ : state) {
        const auto courses = plant.courses();
        const auto lots = lots_of(courses);
        for (const auto& lot : lots) {
            const Estimate estimate(lot.flour, published_priors(FlourClass::white), lot.evidence);
            benchmark::DoNotOptimize(outlook(estimate, asked));
        }
    }
}

void courses_only(benchmark::State& state) {
    const Plant plant;
    for (auto _ : state)
        benchmark::DoNotOptimize(plant.courses());
}

void one_lot_after_a_retest(benchmark::State& state) {
    const Plant plant;
    const auto courses = plant.courses();
    const auto lots = lots_of(courses);
    for (auto _ : state) {
        const Estimate estimate(lots[1].flour, published_priors(FlourClass::white), lots[1].evidence);
        benchmark::DoNotOptimize(outlook(estimate, asked));
    }
}

void one_lot_of_unknown_milling(benchmark::State& state) {
    const Plant plant;
    const auto courses = plant.courses();
    const auto lots = lots_of(courses);
    for (auto _ : state) {
        const Estimate estimate(lots[0].flour, published_priors(FlourClass::white), lots[0].evidence);
        benchmark::DoNotOptimize(outlook(estimate, asked));
    }
}

/// The moments that an estimate asks about at least: its retests and today.
std::vector<double> moments_of(const KnownLot& lot) {
    std::vector<double> moments;
    for (const auto& observation : lot.evidence.front().observations)
        moments.push_back(observation.at);
    moments.push_back(days_of(asked));
    return moments;
}

/// How far the maturing clock of every lot ran up to those moments, by the running sums.
void runs_by_sums(benchmark::State& state) {
    const Plant plant;
    const auto lots = lots_of(plant.courses());
    for (auto _ : state)
        for (const auto& lot : lots)
            for (const double moment : moments_of(lot))
                for (const auto& stay : lot.flour.path)
                    if (stay.from < moment)
                        benchmark::DoNotOptimize(
                            stay.climate->run(Clock::maturing, stay.from, std::min(stay.until, moment)));
}

/// The same, integrated anew from reading to reading for each lot and moment, at the same nodes.
void runs_by_plain_loop(benchmark::State& state) {
    const Plant plant;
    const auto lots = lots_of(plant.courses());
    const auto nodes = nodes_of(published_priors(FlourClass::white).q10);
    for (auto _ : state)
        for (const auto& lot : lots)
            for (const double moment : moments_of(lot))
                for (const auto& stay : lot.flour.path) {
                    const auto& readings = stay.climate->readings();
                    std::array<double, clock_nodes> run{};
                    for (std::size_t i = 1; i < readings.size(); ++i) {
                        const double from = days_of(readings[i - 1].at), until = days_of(readings[i].at);
                        if (until <= stay.from || from >= std::min(stay.until, moment))
                            continue;
                        for (std::size_t n = 0; n < nodes.count; ++n)
                            run[n] += days_at_20(until - from, readings[i - 1].temperature,
                                                 readings[i].temperature, nodes.log_q10[n]);
                    }
                    benchmark::DoNotOptimize(run);
                }
}

void worth_of_retests_of_one_lot(benchmark::State& state) {
    const Plant plant;
    const auto courses = plant.courses();
    const auto lots = lots_of(courses);
    for (auto _ : state)
        benchmark::DoNotOptimize(
            retest_worth(lots[1].flour, published_priors(FlourClass::white), lots[1].evidence, asked));
}

BENCHMARK(all_lots_cold)->Unit(benchmark::kMillisecond);
BENCHMARK(courses_only)->Unit(benchmark::kMillisecond);
BENCHMARK(runs_by_sums)->Unit(benchmark::kMillisecond);
BENCHMARK(runs_by_plain_loop)->Unit(benchmark::kMillisecond);
BENCHMARK(one_lot_after_a_retest)->Unit(benchmark::kMicrosecond);
BENCHMARK(one_lot_of_unknown_milling)->Unit(benchmark::kMicrosecond);
BENCHMARK(worth_of_retests_of_one_lot)->Unit(benchmark::kMicrosecond);

} // namespace
