#include "dough/water_groups.h"

#include "core/promised.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace mellowbin::dough {
namespace {

double squared(double x) { return x * x; }

/// The parts of `now` that are put back to `assumed`.
double put_back(double now, double assumed, double share) { return (1 - share) * now + share * assumed; }

template <class Weights> void to_one(Weights& weights) {
    const double all = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (auto& weight : weights)
        weight /= all;
}

OperatorHabit habit_of(const WaterSpreads& spreads, std::size_t at) {
    const auto& noise = spreads.noise;
    return {spreads.bands.at(at / noise.size()).width, noise.at(at % noise.size())};
}

} // namespace

WaterGroups::WaterGroups(const WaterSpreads& spreads) : spreads_(spreads) {
    static_assert(operator_habits ==
                  std::tuple_size_v<decltype(spreads.bands)> * std::tuple_size_v<decltype(spreads.noise)>);
    static_assert(water_groups == 2 * std::tuple_size_v<decltype(spreads.lots)>);
    for (std::size_t g = 0; g < water_groups; ++g) {
        auto& group = groups_.at(g);
        const bool steps = g % 2 == 1;
        group.lot_variance = squared(spreads.lots.at(g / 2));
        group.crop_variance = steps ? squared(spreads.crop_step) : 0;
        group.assumed =
            (steps ? spreads.crop_share : 1 - spreads.crop_share) / static_cast<double>(spreads.lots.size());
        group.weight = group.assumed;
    }
    for (std::size_t at = 0; at < operator_habits; ++at)
        assumed_habits_.at(at) = spreads.bands.at(at / spreads.noise.size()).weight;
    to_one(assumed_habits_);
}

WaterGroups::WaterGroups(const WaterState& state, const WaterSpreads& spreads) : WaterGroups(spreads) {
    if (state.groups.empty())
        return;
    promised(state.groups.size() == water_groups);
    for (std::size_t g = 0; g < water_groups; ++g) {
        groups_.at(g).weight = state.groups[g].weight;
        groups_.at(g).unknowns = NormalFilter(state.groups[g].unknowns);
    }
    for (const auto& one : state.operators) {
        promised(one.weights.size() == water_groups * operator_habits);
        auto& habits = operator_of(one.line);
        auto next = one.weights.begin();
        for (auto& group : habits)
            for (auto& weight : group)
                weight = *next++;
    }
}

void WaterGroups::put_into(WaterState& state) const {
    for (const auto& group : groups_)
        state.groups.push_back({group.weight, group.unknowns.state()});
    for (const auto& [line, habits] : operators_) {
        WaterState::Operator one{line, {}};
        for (const auto& group : habits)
            one.weights.insert(one.weights.end(), group.begin(), group.end());
        state.operators.push_back(std::move(one));
    }
}

WaterGroups::Operator& WaterGroups::operator_of(LineId line) {
    const auto found = operators_.find(line);
    if (found != operators_.end())
        return found->second;
    auto& habits = operators_[line];
    habits.fill(assumed_habits_);
    return habits;
}

Eigen::Index WaterGroups::add(double mean, double variance) {
    Eigen::Index place = 0;
    for (auto& group : groups_)
        place = group.unknowns.add(mean, variance);
    return place;
}

Eigen::Index WaterGroups::add_lot() {
    Eigen::Index place = 0;
    for (auto& group : groups_)
        place = group.unknowns.add(0, group.lot_variance);
    return place;
}

Eigen::Index WaterGroups::drop(Eigen::Index unknown) {
    Eigen::Index moved = 0;
    for (auto& group : groups_)
        moved = group.unknowns.drop(unknown);
    return moved;
}

void WaterGroups::widen(Eigen::Index unknown, double variance) {
    for (auto& group : groups_)
        group.unknowns.widen(unknown, variance);
}

void WaterGroups::begin_lot(Eigen::Index product, LineId line) {
    auto& habits = operator_of(line);
    for (std::size_t g = 0; g < water_groups; ++g) {
        auto& group = groups_.at(g);
        group.unknowns.widen(product, group.crop_variance);
        group.weight = put_back(group.weight, group.assumed, spreads_.forgetting);
        for (std::size_t at = 0; at < operator_habits; ++at)
            habits.at(g).at(at) = put_back(habits.at(g).at(at), assumed_habits_.at(at), spreads_.forgetting);
    }
}

/// The operator's habit is not known: it is summed out, and weighed by the word.
double WaterGroups::hear(Group& group, Habits& habits, const Terms& optimum, double given,
                         std::optional<Feel> word, const WaterSpreads& spreads) {
    const double ahead = given - group.unknowns.mean(optimum);
    const double variance = group.unknowns.variance(optimum);
    std::array<WordCut, operator_habits> cuts;
    double likelihood = 0;
    for (std::size_t at = 0; at < operator_habits; ++at) {
        cuts.at(at) = cut_by_word(ahead, variance, habit_of(spreads, at), word, spreads.trust);
        habits.at(at) *= cuts.at(at).likelihood;
        likelihood += habits.at(at);
    }
    double slope = 0, bend = 0;
    for (std::size_t at = 0; at < operator_habits; ++at) {
        habits.at(at) /= likelihood;
        slope += habits.at(at) * cuts.at(at).slope;
        bend += habits.at(at) * (cuts.at(at).bend - squared(cuts.at(at).slope));
    }
    group.unknowns.update(optimum, slope, bend + squared(slope));
    return likelihood;
}

double WaterGroups::hear(const Terms& optimum, double given, LineId line, std::optional<Feel> word) {
    auto& habits = operator_of(line);
    double all = 0;
    for (std::size_t g = 0; g < water_groups; ++g) {
        auto& group = groups_.at(g);
        group.weight *= hear(group, habits.at(g), optimum, given, word, spreads_);
        all += group.weight;
    }
    for (auto& group : groups_)
        group.weight /= all;
    return all;
}

std::array<double, water_groups> WaterGroups::weights(bool is_new) const {
    std::array<double, water_groups> weights{};
    for (std::size_t g = 0; g < water_groups; ++g)
        weights.at(g) = is_new ? put_back(groups_.at(g).weight, groups_.at(g).assumed, spreads_.forgetting)
                               : groups_.at(g).weight;
    return weights;
}

WaterGroups::Moments WaterGroups::of(const Terms& sum, const Beside& beside) const {
    const auto weight = weights(beside.is_new);
    std::array<Moments, water_groups> each;
    Moments all;
    for (std::size_t g = 0; g < water_groups; ++g) {
        const auto& group = groups_.at(g);
        const double step = beside.is_new && beside.has_offset ? group.crop_variance : 0;
        each.at(g) = {group.unknowns.mean(sum) + beside.mean, group.unknowns.variance(sum) + beside.variance +
                                                                  beside.unseen_lots * group.lot_variance +
                                                                  step};
        all.mean += weight.at(g) * each.at(g).mean;
    }
    for (std::size_t g = 0; g < water_groups; ++g)
        all.variance += weight.at(g) * (each.at(g).variance + squared(each.at(g).mean - all.mean));
    return all;
}

} // namespace mellowbin::dough
