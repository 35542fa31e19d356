#include "dough/taught_state.h"

#include "core/fingerprint.h"
#include "core/literature/constants.h"
#include "dough/water_belief.h"

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
constexpr int version = 1;

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
    const auto weigh = [&](double one, double other) {
        const double apart = std::abs(one - other);
        largest = std::max(largest, std::isnan(apart) ? unlike : apart);
    };
    for (std::size_t i = 0; i < both.size(); ++i) {
        const auto [place, there] = both[i];
        weigh(kept.mean.at(static_cast<std::size_t>(place)), made.mean.at(static_cast<std::size_t>(there)));
        for (std::size_t j = 0; j <= i; ++j)
            weigh(covariance(kept, place, both[j].first), covariance(made, there, both[j].second));
    }
    return largest;
}

/// All that is counted and not believed, without the places, which come as they come.
auto counted(const TaughtState& state) {
    auto water = state.water;
    water.unknowns = {};
    water.lots.clear();
    for (auto& one : water.products)
        one.unknown = 0;
    for (auto& one : water.lines)
        one.unknown = 0;
    auto mixing = state.mixing;
    mixing.unknowns = {};
    for (auto& one : mixing.mixers)
        one.mean = one.slope = 0;
    for (auto& one : mixing.products)
        one.difference = 0;
    return TaughtState{std::move(water), std::move(mixing), state.newest};
}

} // namespace

std::string form_of_taught_state() {
    const auto w = published_water_spreads();
    const auto begins_with = fmt::format(
        "{} {} {} {} {} {} {} {} {} / {} {} {} {} {} {} / {} {}", w.assumed_offset, w.known_offset, w.line,
        w.lot, w.drift, w.batch, w.word, w.word_doubt, w.silence, lit::dough_mixing_mean.value,
        lit::dough_mixing_mixer_sd.value, lit::dough_mixing_size_sd.value, lit::dough_mixing_product_sd.value,
        lit::dough_mixing_batch_sd.value, lit::dough_mixing_most.value, lit::dough_heat_of_water.value,
        lit::dough_heat_of_hydration.value);
    return fmt::format("doughs-{}-{:016x}", version, fingerprint(begins_with));
}

bool is_whole(const TaughtState& state) {
    return are_whole(state.water.unknowns, places_of(state.water)) &&
           are_whole(state.mixing.unknowns, places_of(state.mixing));
}

double difference(const TaughtState& kept, const TaughtState& made) {
    if (counted(kept) != counted(made))
        return unlike;
    return std::max(
        difference(kept.water.unknowns, places_of(kept.water), made.water.unknowns, places_of(made.water)),
        difference(kept.mixing.unknowns, places_of(kept.mixing), made.mixing.unknowns,
                   places_of(made.mixing)));
}

} // namespace mellowbin::dough
