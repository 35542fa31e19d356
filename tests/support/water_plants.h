#pragma once

#include "core/batch.h"
#include "dough/water_belief.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <random>
#include <vector>

/// Plants that are made up, with a hidden true water of every dough, to see how often the water that is told
/// holds what it says. One product, one line: lots come one after another, the operator says a word of every
/// batch. Nothing here was measured in a bakery.
namespace mellowbin::simulated {

/// What is hidden of a plant; points of absorption.
struct WaterPlant {
    double band = 1, noise = 0.5; ///< of its operator
    double band_centre = 0;       ///< above 0: slack doughs are called right
    double lot_sd = 0.7;
    double offset = 2;
};

/// What goes beside the plan, in all plants of a study alike.
struct WaterTurns {
    int lots = 22, batches = 5, scored_from = 11;
    double silent_when_right = 0, silent_else = 0; ///< share of batches nobody spoke of
    int jump_at = -1;                              ///< lot from which the offset is `jump` off
    double jump = 0;
    int odd_lot = -1; ///< its certificate is off by `odd`
    double odd = 0;
    int new_operator_at = -1; ///< lot
    double new_band = 0, new_noise = 0;
};

using Dice = std::mt19937_64;

inline double uniform(Dice& dice, double low, double high) {
    return std::uniform_real_distribution(low, high)(dice);
}
inline double normal(Dice& dice, double mean, double sd) { return std::normal_distribution(mean, sd)(dice); }

/// A plant as the dice fall: the operator calls a dough right within 0.5 to 1.5 points, lots lie 0.3 to 1.2
/// apart.
inline WaterPlant random_water_plant(Dice& dice) {
    WaterPlant plant;
    plant.band = uniform(dice, 0.5, 1.5);
    plant.noise = uniform(dice, 0.2, 1.0);
    plant.lot_sd = uniform(dice, 0.3, 1.2);
    plant.offset = normal(dice, 2, 2.5);
    return plant;
}

/// One batch, as it was foretold.
struct ToldBatch {
    int lot = 0, batch = 0; ///< from 0
    double off = 0;         ///< the water told less the true optimum
    double half_width = 0;  ///< of the range of 80 %
    [[nodiscard]] bool is_held() const { return std::abs(off) <= half_width; }
};

/// A year's work of the plant, foretold batch by batch by what was learned so far; all batches, in order.
inline std::vector<ToldBatch> work(const WaterPlant& plant, const WaterTurns& turns, Dice& dice) {
    constexpr double to_10_and_90 = 1.2815515655446004, farinograph = 60;
    const ProductId product{1};
    const LineId line{1};
    dough::WaterBelief belief;
    belief.expect(product, AbsorptionPoints{2}, true);
    auto habit = plant;
    std::vector<ToldBatch> all;
    for (int lot = 0; lot < turns.lots; ++lot) {
        if (lot == turns.new_operator_at) {
            habit.band = turns.new_band;
            habit.noise = turns.new_noise;
        }
        const double odd = lot == turns.odd_lot ? turns.odd : 0;
        const double optimum = plant.offset + (turns.jump_at >= 0 && lot >= turns.jump_at ? turns.jump : 0) +
                               normal(dice, 0, plant.lot_sd) + odd;
        const Day day = Day{} + Days{20000 + 3 * lot};
        const std::vector<dough::LotShare> shares{{LotId{lot + 1}, 1}};
        for (int batch = 0; batch < turns.batches; ++batch) {
            const auto learned = belief.predict(product, line, shares, day);
            const double told = std::round(10 * (learned.offset + learned.deviation).value()) / 10;
            all.push_back({lot, batch, told - optimum, to_10_and_90 * learned.sd});
            const double felt = told - optimum - habit.band_centre + normal(dice, 0, habit.noise);
            std::optional<Feel> word = felt < -habit.band  ? Feel::stiff
                                       : felt > habit.band ? Feel::slack
                                                           : Feel::right;
            const double silent = word == Feel::right ? turns.silent_when_right : turns.silent_else;
            if (uniform(dice, 0, 1) < silent)
                word = std::nullopt;
            belief.observe({product, line, day, shares, Absorption14{farinograph},
                            Absorption14{farinograph + told}, word});
        }
        belief.let_go(LotId{lot + 1}); // used up
    }
    return all;
}

/// Of many plants together.
struct WaterScore {
    double cover = 0;               ///< share of scored batches whose optimum lay in the range
    std::vector<double> by_plant;   ///< the same for each plant, ascending
    std::vector<double> rms;        ///< of what was told, by batch of a lot, points
    std::vector<double> half_width; ///< mean, by batch of a lot
    /// Share that the so-manieth part of plants lies at or below.
    [[nodiscard]] double plants_at(double part) const {
        return by_plant.at(static_cast<std::size_t>(part * static_cast<double>(by_plant.size() - 1)));
    }
};

inline bool is_scored(const ToldBatch& batch, int from, int until) {
    return batch.lot >= from && batch.lot <= until;
}

/// `lots` from `from` to `until` are scored; -1: as the turns say, to the last.
inline WaterScore score(const std::vector<std::vector<ToldBatch>>& plants, const WaterTurns& turns,
                        int from = -1, int until = -1) {
    from = from < 0 ? turns.scored_from : from;
    until = until < 0 ? turns.lots - 1 : until;
    WaterScore score;
    const auto batches = static_cast<std::size_t>(turns.batches);
    score.rms.resize(batches);
    score.half_width.resize(batches);
    double held = 0, all = 0;
    for (const auto& plant : plants) {
        double held_here = 0, here = 0;
        for (const auto& batch : plant)
            if (is_scored(batch, from, until)) {
                const auto at = static_cast<std::size_t>(batch.batch);
                score.rms[at] += batch.off * batch.off;
                score.half_width[at] += batch.half_width;
                held_here += batch.is_held() ? 1 : 0;
                ++here;
            }
        score.by_plant.push_back(held_here / here);
        held += held_here;
        all += here;
    }
    std::sort(score.by_plant.begin(), score.by_plant.end());
    const double each = all / static_cast<double>(batches);
    for (std::size_t at = 0; at < batches; ++at) {
        score.rms[at] = std::sqrt(score.rms[at] / each);
        score.half_width[at] /= each;
    }
    score.cover = held / all;
    return score;
}

/// So many plants, each made by `make`, all work as the turns say.
inline std::vector<std::vector<ToldBatch>> study(int plants, unsigned seed, const WaterTurns& turns,
                                                 const std::function<WaterPlant(Dice&)>& make) {
    std::vector<std::vector<ToldBatch>> all;
    Dice dice(seed);
    for (int i = 0; i < plants; ++i)
        all.push_back(work(make(dice), turns, dice));
    return all;
}

} // namespace mellowbin::simulated
