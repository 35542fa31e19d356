#include "support/simulated_mixing.h"

#include "core/normal.h"
#include "dough/mixing_belief.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <vector>

namespace mellowbin::testing {
namespace {

using namespace dough;

class Chance {
public:
    explicit Chance(std::uint64_t seed) : generator_(seed) {}
    double uniform(double from, double to) { return std::uniform_real_distribution<>(from, to)(generator_); }
    double normal(double sd) { return std::normal_distribution<>(0, sd)(generator_); }
    int whole(int from, int to) { return std::uniform_int_distribution<>(from, to)(generator_); }

private:
    std::mt19937_64 generator_;
};

constexpr int days = 20;
constexpr int batches_a_day = 6;
constexpr double ingredient_share = 0.06; ///< of the flour, at the room's temperature
const Celsius aim{26};

/// A mixer with all that is hidden of it.
struct HiddenLine {
    LineId id;
    double heat = 0;  ///< kJ/kg, of 100 kg of dough
    double slope = 0; ///< on the logarithm of the mass
    std::vector<double> products;
    double scatter = 0; ///< K
    double probe = 0;   ///< K, what the dough's thermometer reads too much
    double water = 0;   ///< K, the same of the water's
    double meter = 1;   ///< of the water told, what flows
    double step = 0.1;  ///< K, to which readings are rounded
    double flour = 0;   ///< K, what the flour is warmer than is thought
    double weeks = 0;   ///< K, standard deviation of what comes and goes
    double room = 0;    ///< K, the same of the room
};

HiddenLine hidden_line(int number, MixingOddity oddity, Chance& chance) {
    HiddenLine line;
    line.id = LineId{number};
    line.heat = chance.uniform(10, 45);
    line.slope = chance.normal(3);
    for (int i = chance.whole(2, 3); i > 0; --i)
        line.products.push_back(chance.normal(4));
    line.scatter = oddity == MixingOddity::rough ? chance.uniform(2, 3) : chance.uniform(0.3, 1.2);
    line.probe = chance.normal(chance.uniform(0.5, 1));
    line.water = chance.normal(0.5);
    line.meter = 1 + chance.normal(0.01);
    line.step = std::array{0.1, 0.5, 1.0}.at(static_cast<std::size_t>(chance.whole(0, 2)));
    line.flour = chance.normal(1.5);
    line.weeks = chance.uniform(0.3, 1.5);
    line.room = chance.uniform(0.5, 2);
    return line;
}

/// A dough as it is told, or as it is.
DoughHeat dough_of(double flour_kg, double water_kg, double flour_c, double room_c) {
    return {aim,
            Kilograms{water_kg},
            {flour_part(Kilograms{flour_kg}, Celsius{flour_c}),
             ingredient_part(Kilograms{ingredient_share * flour_kg}, 0, Celsius{room_c})},
            0};
}

/// The temperature at which the heat balance closes: it is linear in it.
double true_temperature(DoughHeat dough, Celsius water, double heat) {
    const auto told = [&](double temperature) {
        dough.dough = Celsius{temperature};
        return mixing_heat_of({dough, water, Kilograms{0}});
    };
    const double at_0 = told(0);
    return (heat - at_0) / (told(1) - at_0);
}

struct Tally {
    int batches = 0;
    int held = 0;
    int truly = 0;
    int first = 0;
    int first_held = 0;
    double width = 0;
};

void mix_for_weeks(HiddenLine line, MixingOddity oddity, Chance& chance, MixingBelief& belief, Tally& tally) {
    double weeks = chance.normal(line.weeks);
    double room = chance.normal(line.room);
    int mixed = 0;
    for (int day = 0; day < days; ++day) {
        constexpr double stays = 0.9;
        weeks = stays * weeks + chance.normal(line.weeks * std::sqrt(1 - stays * stays));
        room = stays * room + chance.normal(line.room * std::sqrt(1 - stays * stays));
        if (oddity == MixingOddity::probe_exchanged && day == days / 2)
            line.probe += chance.whole(0, 1) == 0 ? -2 : 2;
        const double season = oddity == MixingOddity::season ? -8.0 * day / (days - 1) : 0;
        const auto product =
            static_cast<std::size_t>(chance.whole(0, static_cast<int>(line.products.size()) - 1));
        const double flour = std::array{60.0, 100.0, 150.0}.at(static_cast<std::size_t>(chance.whole(0, 2)));
        for (int batch = 0; batch < batches_a_day; ++batch, ++mixed) {
            const double water = 0.62 * flour;
            auto told = dough_of(flour, water, 20, 22);
            const auto expected =
                belief.predict(line.id, ProductId{static_cast<int>(product) + 1}, told.mass());
            told.mixing_kj_per_kg = expected ? expected->kj_per_kg : 20;
            const Celsius poured = water_by_heat_balance(told);
            const auto real =
                dough_of(flour, water * line.meter, 20 + line.flour + weeks + season, 22 + room);
            const double heat = line.heat + line.products[product] +
                                line.slope * std::log(real.mass().value() / 100) +
                                chance.normal(line.scatter) * real.heat();
            const double truly =
                true_temperature(real, poured + CelsiusStep{-line.water + chance.normal(0.2)}, heat);
            const double reading =
                std::round((truly + line.probe + chance.normal(0.2)) / line.step) * line.step;
            if (expected) {
                const double off = to_10_and_90 * expected->reading_sd / told.heat();
                const bool held = std::abs(reading - aim.value()) <= off;
                ++tally.batches;
                tally.held += held ? 1 : 0;
                tally.truly += std::abs(truly - aim.value()) <= off ? 1 : 0;
                tally.width += 2 * off;
                if (mixed < 5) {
                    ++tally.first;
                    tally.first_held += held ? 1 : 0;
                }
            }
            auto measured = told;
            measured.dough = Celsius{reading};
            belief.observe(line.id, ProductId{static_cast<int>(product) + 1}, told.mass(),
                           mixing_heat_of({measured, poured, Kilograms{0}}));
        }
    }
}

} // namespace

std::string_view name_of(MixingOddity oddity) {
    constexpr std::array names{"usual", "probe exchanged", "rough", "season"};
    return names.at(static_cast<std::size_t>(oddity));
}

MixingCover mixing_cover(MixingOddity oddity, int plants, std::uint64_t first_seed) {
    Tally all;
    std::vector<double> shares;
    for (int i = 0; i < plants; ++i) {
        Chance chance(first_seed + static_cast<std::uint64_t>(i));
        MixingBelief belief;
        Tally plant;
        const int lines = chance.whole(1, 2);
        for (int line = 1; line <= lines; ++line)
            mix_for_weeks(hidden_line(line, oddity, chance), oddity, chance, belief, plant);
        shares.push_back(static_cast<double>(plant.held) / plant.batches);
        all.batches += plant.batches;
        all.held += plant.held;
        all.truly += plant.truly;
        all.first += plant.first;
        all.first_held += plant.first_held;
        all.width += plant.width;
    }
    std::sort(shares.begin(), shares.end());
    const double batches = all.batches;
    return {plants,
            all.batches,
            all.held / batches,
            shares[shares.size() / 20],
            all.truly / batches,
            all.width / batches,
            static_cast<double>(all.first_held) / all.first};
}

} // namespace mellowbin::testing
