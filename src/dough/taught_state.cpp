#include "dough/taught_state.h"

#include "core/fingerprint.h"
#include "core/literature/constants.h"
#include "dough/water_belief.h"
#include "dough/water_groups.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <tuple>
#include <utility>

namespace mellowbin::dough {
namespace {

namespace lit = literature;

/// To be raised with every change of what a filter does or holds.
constexpr int version = 2;

constexpr double unlike = std::numeric_limits<double>::infinity();

/// An unknown by whose it is: what, and of which records.
using Name = std::tuple<int, std::int64_t, std::int64_t>;
using Places = std::map<Name, std::int64_t>;

Places places_of(const WaterState& water) {
    Places places;
    for (const auto& one : water.products)
        places[{0, one.product.number(), 0}] = one.unknown;
    for (const auto& one : water.lines)
        places[{1, one.product.number(), one.line.number()}] = one.unknown;
    for (const auto& [lot, unknown] : water.lots)
        places[{2, lot.number(), 0}] = unknown;
    return places;
}

Places places_of(const MixingState& mixing) {
    Places places;
    for (const auto& one : mixing.mixers) {
        places[{0, one.line.number(), 0}] = one.mean;
        places[{1, one.line.number(), 0}] = one.slope;
    }
    for (const auto& one : mixing.products)
        places[{2, one.line.number(), one.product.number()}] = one.difference;
    return places;
}

bool are_whole(const NormalState& unknowns, const Places& places) {
    const auto count = unknowns.mean.size();
    std::set<std::int64_t> taken;
    for (const auto& [name, place] : places)
        if (place >= 0 && place < static_cast<std::int64_t>(count))
            taken.insert(place);
    return places.size() == count && taken.size() == count &&
           unknowns.covariance.size() == count * (count + 1) / 2;
}

double covariance(const NormalState& unknowns, std::int64_t one, std::int64_t other) {
    const auto [low, high] = std::minmax(one, other);
    return unknowns.covariance.at(static_cast<std::size_t>(high * (high + 1) / 2 + low));
}

double apart(double one, double other) {
    const double by = std::abs(one - other);
    return std::isnan(by) ? unlike : by;
}

double difference(const NormalState& kept, const Places& of_kept, const NormalState& made,
                  const Places& of_made) {
    std::vector<std::pair<std::int64_t, std::int64_t>> both;
    for (const auto& [name, place] : of_kept) {
        const auto found = of_made.find(name);
        if (found == of_made.end())
            return unlike;
        both.emplace_back(place, found->second);
    }
    double largest = 0;
    const auto weigh = [&](double one, double other) { largest = std::max(largest, apart(one, other)); };
    for (std::size_t i = 0; i < both.size(); ++i) {
        const auto [place, there] = both[i];
        weigh(kept.mean.at(static_cast<std::size_t>(place)), made.mean.at(static_cast<std::size_t>(there)));
        for (std::size_t j = 0; j <= i; ++j)
            weigh(covariance(kept, place, both[j].first), covariance(made, there, both[j].second));
    }
    return largest;
}

double difference(const WaterState::Operator& one, const WaterState::Operator& other) {
    if (one.line != other.line || one.weights.size() != other.weights.size())
        return unlike;
    double largest = 0;
    for (std::size_t i = 0; i < one.weights.size(); ++i)
        largest = std::max(largest, apart(one.weights[i], other.weights[i]));
    return largest;
}

/// A lot of `kept` that a product had it must have had in `made`, too.
bool have_met_the_same(const WaterState& kept, const WaterState& made) {
    for (std::size_t i = 0; i < kept.products.size(); ++i) {
        std::vector<LotId> met;
        for (const auto lot : made.products[i].met)
            if (kept.lots.contains(lot))
                met.push_back(lot);
        if (met != kept.products[i].met)
            return false;
    }
    return true;
}

/// They count alike.
double difference(const WaterState& kept, const WaterState& made) {
    if (kept.groups.size() != made.groups.size() || kept.operators.size() != made.operators.size() ||
        !have_met_the_same(kept, made))
        return unlike;
    const auto of_kept = places_of(kept), of_made = places_of(made);
    double largest = 0;
    for (std::size_t g = 0; g < kept.groups.size(); ++g)
        largest = std::max({largest, apart(kept.groups[g].weight, made.groups[g].weight),
                            difference(kept.groups[g].unknowns, of_kept, made.groups[g].unknowns, of_made)});
    for (std::size_t i = 0; i < kept.operators.size(); ++i)
        largest = std::max(largest, difference(kept.operators[i], made.operators[i]));
    return largest;
}

bool is_whole(const WaterState& water) {
    const auto places = places_of(water);
    if (water.groups.empty())
        return places.empty() && water.operators.empty();
    return water.groups.size() == water_groups &&
           std::all_of(water.groups.begin(), water.groups.end(),
                       [&](const auto& group) { return are_whole(group.unknowns, places); }) &&
           std::all_of(water.operators.begin(), water.operators.end(),
                       [](const auto& one) { return one.weights.size() == water_groups * operator_habits; });
}

/// All that is counted and not believed, without the places, which come as they come.
auto counted(const TaughtState& state) {
    auto water = state.water;
    water.groups.clear();
    water.operators.clear();
    water.lots.clear();
    for (auto& one : water.products) {
        one.unknown = 0;
        one.met.clear();
    }
    for (auto& one : water.lines)
        one.unknown = 0;
    auto mixing = state.mixing;
    mixing.unknowns = {};
    for (auto& one : mixing.mixers) {
        one.mean = one.slope = 0;
        one.scattered = 0; // a sum of what was measured: told apart as the beliefs are
    }
    for (auto& one : mixing.products)
        one.difference = 0;
    return TaughtState{std::move(water), std::move(mixing), state.newest};
}

/// Of what mixers' batches scattered by. Both know the same mixers, in order.
double scattered_apart(const MixingState& kept, const MixingState& made) {
    double largest = 0;
    for (std::size_t i = 0; i < kept.mixers.size(); ++i) {
        const double apart = std::abs(kept.mixers[i].scattered - made.mixers[i].scattered);
        largest = std::max(largest, std::isnan(apart) ? unlike : apart);
    }
    return largest;
}

} // namespace

std::string form_of_taught_state() {
    const auto w = published_water_spreads();
    std::string begins_with =
        fmt::format("{} {} {} {} {} {} / {} {} {} {}", w.assumed_offset, w.known_offset, w.line, w.drift,
                    w.crop_step, w.crop_share, w.trust.lapse, w.trust.silence, w.forgetting, w.odd_word);
    for (const double lots : w.lots)
        begins_with += fmt::format(" {}", lots);
    for (const auto& band : w.bands)
        begins_with += fmt::format(" {}x{}", band.width, band.weight);
    for (const double noise : w.noise)
        begins_with += fmt::format(" {}", noise);
    begins_with += fmt::format(
        " / {} {} {} {} {} {} {} {} {} {}", lit::dough_mixing_mean.value, lit::dough_mixing_mixer_sd.value,
        lit::dough_mixing_size_sd.value, lit::dough_mixing_product_sd.value, lit::dough_mixing_batch_sd.value,
        lit::dough_mixing_batch_worth.value, lit::dough_mixing_drift_sd.value, lit::dough_mixing_most.value,
        lit::dough_heat_of_water.value, lit::dough_heat_of_hydration.value);
    return fmt::format("doughs-{}-{:016x}", version, fingerprint(begins_with));
}

bool is_whole(const TaughtState& state) {
    return is_whole(state.water) && are_whole(state.mixing.unknowns, places_of(state.mixing));
}

double difference(const TaughtState& kept, const TaughtState& made) {
    if (counted(kept) != counted(made))
        return unlike;
    return std::max({difference(kept.water, made.water),
                     difference(kept.mixing.unknowns, places_of(kept.mixing), made.mixing.unknowns,
                                places_of(made.mixing)),
                     scattered_apart(kept.mixing, made.mixing)});
}

} // namespace mellowbin::dough
