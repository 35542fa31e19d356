#include "support/simulated_bakes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace mellowbin::testing {
namespace {

using dough::Ladder;

/// Doses that people bake.
const std::array<std::vector<double>, 7> usual_doses{{{0, 10, 20, 40},
                                                      {0, 20, 40, 60},
                                                      {0, 10, 20, 30, 40},
                                                      {0, 15, 30, 45, 60},
                                                      {0, 20, 40, 60, 80},
                                                      {0, 25, 50, 75},
                                                      {0, 10, 20, 40, 60, 80, 100}}};

class Chance {
public:
    explicit Chance(std::uint64_t seed) : generator_(seed) {}
    double uniform(double from, double to) { return std::uniform_real_distribution<>(from, to)(generator_); }
    double normal(double mean, double sd) { return std::normal_distribution<>(mean, sd)(generator_); }
    /// Around `middle`, by this factor up or down.
    double about(double middle, double spread) { return middle * std::exp(normal(0, spread)); }
    int whole(int from, int to) { return std::uniform_int_distribution<>(from, to)(generator_); }
    bool happens(double share) { return uniform(0, 1) < share; }

private:
    std::mt19937_64 generator_;
};

enum class Family { root, saturating, hill, tent };

/// Gain in size over none as a share of it, 1 at the best dose (above 0).
double risen(Family family, double dose, double best) {
    const double x = dose / best;
    switch (family) {
    case Family::root: { // fast up, slowly down
        const double off = std::sqrt(x) - 1;
        return 1 - off * off;
    }
    case Family::saturating: { // to a plateau, less what each dose costs
        constexpr double steep = 2;
        const double cost = steep * std::exp(-steep);
        return (1 - std::exp(-steep * x) - cost * x) / (1 - std::exp(-steep) - cost);
    }
    case Family::hill: { // a hump on the logarithm of the dose
        constexpr double from = 0.35;
        constexpr double wide = 0.9;
        const auto height = [](double at) {
            const double off = std::log((at + from) / (1 + from)) / wide;
            return std::exp(-off * off / 2);
        };
        return (height(x) - height(0)) / (1 - height(0));
    }
    case Family::tent: { // round at the top, straight beyond, less steep down than up
        constexpr double round = 0.4;
        constexpr double downhill = 0.4;
        const auto down = [](double off) {
            const double far = std::abs(off);
            return far < round ? far * far / 2 / round : far - round / 2;
        };
        return 1 - (x > 1 ? downhill : 1) * down(x - 1) / down(1);
    }
    }
    return 0;
}

/// The hidden response of one lot.
struct Truth {
    DoseShape shape{};
    Family family{};
    double level = 1;
    double gain = 0;
    double best = 0; ///< on the day of the first loaves
    double highest = 0;

    /// `on`: as much oxidant as what the flour gained in maturity since stands for.
    [[nodiscard]] double size(double dose, double on = 0) const {
        const double counts = std::max(0.0, dose + on);
        if (shape == DoseShape::falling) {
            const double x = counts / highest;
            return level * (1 - gain * (family == Family::root         ? std::sqrt(x)
                                        : family == Family::saturating ? (1 - std::exp(-2 * x)) / 0.86
                                        : family == Family::hill       ? x * x
                                                                       : x));
        }
        return level * (1 + gain * risen(family, counts, best));
    }
    [[nodiscard]] double best_dose(double on = 0) const {
        if (shape == DoseShape::falling)
            return 0;
        return std::clamp(best - on, 0.0, highest);
    }
};

double gain_of(DoseShape shape, Chance& chance) {
    switch (shape) {
    case DoseShape::curved:
    case DoseShape::rising:
        return chance.uniform(0.04, 0.15);
    case DoseShape::falling:
        return chance.uniform(0.02, 0.12);
    case DoseShape::flat:
        return chance.uniform(0, 0.005);
    }
    return 0;
}

/// Where the loaves of a plant are largest, as a share of the highest dose.
double best_of(DoseShape shape, Chance& chance) {
    return shape == DoseShape::rising ? chance.uniform(1.3, 4) : chance.uniform(0.2, 0.8);
}

struct Oven {
    Chance& chance;
    double scatter = 0;
    double by_day = 0;

    void bake(const Truth& truth, const std::vector<double>& doses, int loaves, double on, double maturity,
              int day, Ladder& ladder) const {
        const double today = 1 + chance.normal(0, by_day);
        for (const double dose : doses)
            for (int i = 0; i < loaves; ++i) {
                const double size = truth.size(dose, on) * today * (1 + chance.normal(0, scatter));
                ladder.loaves.push_back({OxidantPpm{dose}, 1000 * size, Maturity{maturity}, Day{Days{day}}});
            }
    }
};

/// 5 % quantile of plants' shares where each of their lots is held with the same chance, by itself.
double worst_by_chance(const std::vector<std::size_t>& lots, double cover) {
    Chance chance(1);
    constexpr int times = 50;
    std::vector<double> shares;
    for (int i = 0; i < times; ++i)
        for (const auto count : lots) {
            int held = 0;
            for (std::size_t lot = 0; lot < count; ++lot)
                held += chance.happens(cover) ? 1 : 0;
            shares.push_back(held / static_cast<double>(count));
        }
    std::sort(shares.begin(), shares.end());
    return shares[shares.size() / 20];
}

} // namespace

std::string_view name_of(DoseShape shape) {
    constexpr std::array names{"rising", "falling", "curved", "flat"};
    return names.at(static_cast<std::size_t>(shape));
}

PlantOfBakes simulated_bakes(const BakesSetup& setup, std::uint64_t seed) {
    Chance chance(seed);
    PlantOfBakes plant;
    const auto family = static_cast<Family>(chance.whole(0, 3));
    const auto& doses = usual_doses.at(static_cast<std::size_t>(chance.whole(0, 6)));
    const double highest = doses.back();
    const double gain = gain_of(setup.shape, chance);
    const double best = best_of(setup.shape, chance) * highest;
    const double apart = chance.uniform(0.1, 0.35); // lots' optima, as a factor
    const double levels = chance.uniform(0.03, 0.12);
    const int loaves = chance.whole(1, 2);
    const Oven oven{chance, std::clamp(chance.about(0.025, 0.4), 0.012, 0.06), chance.uniform(0, 0.02)};
    plant.scatter = oven.scatter;
    plant.family = static_cast<int>(family);
    plant.fall = setup.matures ? chance.about(6, 0.66) : 0;
    const int lots = chance.whole(2, 10);
    for (int lot = 1; lot <= lots; ++lot) {
        Truth truth{setup.shape,
                    family,
                    1 + chance.normal(0, levels),
                    chance.about(gain, 0.3),
                    chance.about(best, apart),
                    highest};
        if (setup.shape == DoseShape::curved)
            truth.best = std::clamp(truth.best, 0.15 * highest, 0.9 * highest);
        if (setup.shape == DoseShape::rising)
            truth.best = std::max(truth.best, 1.05 * highest);
        Ladder ladder{LotId{lot}, {}};
        const double first = setup.matures ? chance.uniform(0.2, 0.7) : 0.5;
        // The optimum is told for a flour that has matured half way; what it is now falls with its maturity.
        const double on = plant.fall * (first - 0.5);
        oven.bake(truth, doses, loaves, on, first, lot, ladder);
        const double later = setup.matures ? chance.uniform(first, 1) : first;
        if (setup.matures && chance.happens(setup.two_ages)) {
            const double second = chance.uniform(first, later);
            oven.bake(truth, doses, loaves, plant.fall * (second - 0.5), second, lot + 30, ladder);
        }
        plant.ladders.push_back(ladder);
        plant.best.push_back(truth.best_dose(on));
        plant.highest.push_back(highest);
        plant.now.push_back(later);
        plant.best_then.push_back(truth.best_dose(plant.fall * (later - 0.5)));
    }
    return plant;
}

DoseCover dose_cover(const BakesSetup& setup, int plants, std::uint64_t first_seed) {
    DoseCover all;
    std::vector<double> shares;
    std::vector<std::size_t> lots;
    constexpr OxidantPpm plenty{1000};
    for (int i = 0; i < plants; ++i) {
        const auto plant = simulated_bakes(setup, first_seed + static_cast<std::uint64_t>(i));
        const dough::DoseResponse response(plant.ladders, dough::assumed_fall(Substance::ascorbic_acid));
        int held = 0;
        for (std::size_t lot = 0; lot < plant.ladders.size(); ++lot) {
            const Maturity now{plant.now[lot]};
            const auto told = setup.matures
                                  ? response.best_dose(plant.ladders[lot].lot, plenty, {{now, now, now}})
                                  : response.best_dose(plant.ladders[lot].lot, plenty);
            const double truly = setup.matures ? plant.best_then[lot] : plant.best[lot];
            const double highest = plant.highest[lot];
            constexpr double hair = 1e-9;
            held += told.low.value() <= truly + hair && truly - hair <= told.high.value() ? 1 : 0;
            all.width += (told.high - told.low).value() / highest;
            all.miss += std::abs(told.dose.value() - truly) / highest;
            ++all.lots;
        }
        all.cover += held;
        lots.push_back(plant.ladders.size());
        shares.push_back(held / static_cast<double>(plant.ladders.size()));
    }
    std::sort(shares.begin(), shares.end());
    all.plants = plants;
    all.cover /= all.lots;
    all.width /= all.lots;
    all.miss /= all.lots;
    all.worst_twentieth = shares[shares.size() / 20];
    all.by_chance = worst_by_chance(lots, all.cover);
    return all;
}

} // namespace mellowbin::testing
