#include "planning/assignment_words.h"

#include "core/percent_words.h"
#include "planning/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

double points_of(const Problem& p, int run, const Use& use) {
    double points = 0;
    double tonnes = 0;
    for (const auto& [l, t] : use) {
        points += t * p.at(l, run).maturity_points;
        tonnes += t;
    }
    return tonnes > 0 ? points / tonnes : 0;
}

/// The lots of `use` that the run does not have now; all of it where there are none.
std::vector<int> newcomers(const Use& use, const Use& now) {
    std::vector<int> lots;
    for (const auto& [l, t] : use)
        if (!now.contains(l))
            lots.push_back(l);
    if (lots.empty())
        for (const auto& [l, t] : use)
            lots.push_back(l);
    return lots;
}

} // namespace

AssignmentWords::AssignmentWords(const Problem& problem, const std::vector<Use>& uses,
                                 const Evaluation& evaluation, const Background& background)
    : p_(problem), uses_(uses), e_(evaluation), background_(background), next_(problem.runs.size()),
      trial_(problem, uses, evaluation) {
    for (int r = 0; r < problem.run_count(); ++r)
        if (problem.runs[r].prev_on_line >= 0)
            next_[problem.runs[r].prev_on_line].push_back(r);
}

AssignmentReason AssignmentWords::reason(const Assignment& a) const {
    AssignmentReason reason;
    reason.run = a.run;
    reason.lot = a.lot;
    if (p_.runs[a.run].state == RunState::frozen) {
        reason.why = "Kept as it is: the run is frozen.";
    } else if (const Lock* lock = lock_of(a)) {
        say_lock(a, *lock, reason);
    } else {
        reason.why = why(a);
        if (const auto words = why_passed_over(a); !words.empty())
            reason.why += " " + words;
        say_next_best(a, reason);
    }
    return reason;
}

const Lock* AssignmentWords::lock_of(const Assignment& a) const {
    const auto lock = std::find_if(p_.locks.begin(), p_.locks.end(), [&](const Lock& one) {
        return one.run == a.run && one.lot == a.lot && one.tonnes > 0;
    });
    return lock == p_.locks.end() ? nullptr : &*lock;
}

/// A lock that costs the plan something says what.
void AssignmentWords::say_lock(const Assignment& a, const Lock& lock, AssignmentReason& reason) const {
    reason.why = "Kept: locked by a person.";
    const Tried tried = trial_.without_lock(a.run, lock);
    reason.costs_more = tried.dearer;
    if (tried.dearer >= -0.5 || tried.use.empty())
        return;
    std::string words;
    for (const TierChange& change : tier_changes(p_, a.run, e_.runs[a.run], tried.run, background_.dose))
        if (!change.is_worse && words.empty())
            words = change.words;
    std::vector<int> lots;
    for (const auto& [l, t] : tried.use)
        lots.push_back(l);
    reason.next_best = fmt::format("Without the lock: {}{}.", names_of(p_, lots),
                                   words.empty() ? " would serve better" : "; " + words);
}

std::string AssignmentWords::why(const Assignment& a) const {
    std::vector<std::string> found;
    const bool is_alone = p_.product_of(a.run).one_lot_a_batch; // no lot makes up for another in the bowl
    for (std::string words : {is_alone ? "" : brings_into_window(a), is_alone ? "" : brings_maturity(a),
                              carries_on(a), place_in_age_and_price(a)})
        if (!words.empty())
            found.push_back(std::move(words));
    if (found.empty())
        return "Fills the run from what other runs leave.";
    return found.size() == 1 ? found[0] : found[0] + " " + found[1];
}

RunResult AssignmentWords::judged(int run, const Use& use) const {
    const int prev = p_.runs[run].prev_on_line;
    return evaluate_run(p_, run, use, prev >= 0 ? &uses_[prev] : nullptr);
}

/// Compared with the rest of the blend filling the run alone.
std::string AssignmentWords::brings_into_window(const Assignment& a) const {
    Use rest = uses_[a.run];
    rest.erase(a.lot);
    if (rest.empty())
        return {};
    const RunResult with = judged(a.run, uses_[a.run]);
    const RunResult without = judged(a.run, rest);
    int property = -1;
    double gained = 0;
    for (int k = 0; k < static_cast<int>(p_.properties.size()); ++k) {
        const double nearer = (std::abs(without.off_window[k]) - std::abs(with.off_window[k])) /
                              p_.product_of(a.run).windows[k].scale;
        if (nearer <= gained + 0.005)
            continue;
        gained = nearer;
        property = k;
    }
    if (property < 0)
        return {};
    const double off = with.off_window[property];
    // A value on the window's edge counts as inside: the polish often ends there.
    const bool is_inside = std::abs(off) < 1e-6 * p_.product_of(a.run).windows[property].scale;
    return fmt::format("Brings {} {} {} the specification; without it {}.",
                       value_words(p_, property, with.blend[property]),
                       without.off_window[property] < 0 ? "up" : "down", is_inside ? "into" : "towards",
                       value_words(p_, property, without.blend[property]));
}

std::string AssignmentWords::brings_maturity(const Assignment& a) const {
    const double target = p_.product_of(a.run).maturity_target_points;
    const double own = p_.at(a.lot, a.run).maturity_points;
    double rest = 0;
    double rest_t = 0;
    for (const auto& [l, t] : uses_[a.run])
        if (l != a.lot) {
            rest += t * p_.at(l, a.run).maturity_points;
            rest_t += t;
        }
    if (rest_t <= 0 || own < target || rest / rest_t >= target - 0.5)
        return {};
    return fmt::format("Its maturity ({:.0f} %) makes up for what the rest lacks ({}).", own,
                       percent_of_words(rest / rest_t, target));
}

std::string AssignmentWords::carries_on(const Assignment& a) const {
    const int prev = p_.runs[a.run].prev_on_line;
    if (prev >= 0 && uses_[prev].contains(a.lot))
        return fmt::format("Same flour as {} before it on the line: no change.", p_.runs[prev].id);
    for (const int next : next_[a.run])
        if (uses_[next].contains(a.lot))
            return fmt::format("Goes on into {} after it on the line.", p_.runs[next].id);
    return {};
}

/// The lots that may be used and are inside every window by themselves.
std::vector<int> AssignmentWords::suiting(int run) const {
    std::vector<int> lots;
    for (int l = 0; l < p_.lot_count(); ++l) {
        if (!p_.usable(l, run) || p_.lots[l].stock_t <= 0)
            continue;
        const std::vector<Window>& windows = p_.product_of(run).windows;
        bool suits = true;
        for (std::size_t k = 0; k < windows.size(); ++k) {
            const double value = p_.lots[l].values[k];
            suits = suits && (!windows[k].low || value >= *windows[k].low) &&
                    (!windows[k].high || value <= *windows[k].high);
        }
        if (suits)
            lots.push_back(l);
    }
    return lots;
}

std::string AssignmentWords::place_in_age_and_price(const Assignment& a) const {
    const std::vector<int> lots = suiting(a.run);
    if (std::find(lots.begin(), lots.end(), a.lot) == lots.end())
        return {};
    if (lots.size() == 1)
        return "The only lot that suits by itself.";
    const auto first = *std::min_element(lots.begin(), lots.end(), [&](int x, int y) {
        return p_.lots[x].use_by_day < p_.lots[y].use_by_day;
    });
    if (p_.lots[first].use_by_day == p_.lots[a.lot].use_by_day)
        return fmt::format("First to expire of {} that suit: use by {}.", lots.size(),
                           day_words(background_, p_.lots[a.lot].use_by_day));
    const auto cheapest = *std::min_element(lots.begin(), lots.end(), [&](int x, int y) {
        return p_.lots[x].cost_per_t < p_.lots[y].cost_per_t;
    });
    if (p_.lots[cheapest].cost_per_t == p_.lots[a.lot].cost_per_t)
        return fmt::format("The cheapest of {} that suit.", lots.size());
    return fmt::format("One of {} that suit by themselves.", lots.size());
}

/// Nothing is left of what lies below it.
bool AssignmentWords::is_reached(int lot) const {
    for (const auto& chain : p_.chains) {
        const auto at = std::find(chain.begin(), chain.end(), lot);
        if (at != chain.end())
            return std::all_of(chain.begin(), at,
                               [&](int below) { return e_.left_t[below] <= slight_rest_t; });
    }
    return true;
}

/// The first to expire of the lots that may go into the run, are left, and expire sooner than this one. Told
/// of the run's last lot to expire.
std::optional<int> AssignmentWords::passed_over(const Assignment& a) const {
    const auto use_by = [&](int l) { return p_.lots[l].use_by_day; };
    for (const auto& [l, t] : uses_[a.run])
        if (use_by(l) > use_by(a.lot) || (use_by(l) == use_by(a.lot) && l < a.lot))
            return {};
    const double least_t = std::max(1e-3, p_.product_of(a.run).min_share * p_.runs[a.run].demand_t);
    std::optional<int> first;
    for (int l = 0; l < p_.lot_count(); ++l)
        if (use_by(l) < use_by(a.lot) && p_.usable(l, a.run) && e_.left_t[l] >= least_t &&
            !uses_[a.run].contains(l) && is_reached(l) && (!first || use_by(l) < use_by(*first)))
            first = l;
    return first;
}

/// First expired, first out, and why not here: what would be if that lot stood in the place of this one.
std::string AssignmentWords::why_passed_over(const Assignment& a) const {
    const auto first = passed_over(a);
    if (!first)
        return {};
    Use other = uses_[a.run];
    const double taken = std::min(other[a.lot], e_.left_t[*first]);
    other[a.lot] -= taken;
    if (other[a.lot] <= 1e-9)
        other.erase(a.lot);
    other[*first] += taken;
    std::vector<std::string> against;
    for (const TierChange& change :
         tier_changes(p_, a.run, e_.runs[a.run], judged(a.run, other), background_.dose))
        if (change.is_worse && change.tier != Tier::age && against.size() < 2)
            against.push_back(change.words);
    const bool goes_on = std::any_of(next_[a.run].begin(), next_[a.run].end(), [&](int next) {
        return uses_[next].contains(a.lot) && !uses_[next].contains(*first);
    });
    if (against.empty())
        against.emplace_back(goes_on ? "the run after it on the line would change its flour"
                                     : "by the figures it would do; lock it to the run to take it first");
    return fmt::format("{} expires sooner ({}) and {} of it are left: {}.", p_.lots[*first].id,
                       day_words(background_, p_.lots[*first].use_by_day), tonnes_words(e_.left_t[*first]),
                       list_words(against));
}

bool AssignmentWords::is_younger(const Assignment& a, const Use& other) const {
    return points_of(p_, a.run, other) < points_of(p_, a.run, uses_[a.run]) - 1;
}

/// "B is past its best from Thu 3 Dec"
std::string AssignmentWords::past_best_words(int run, const std::vector<int>& lots) const {
    for (const int l : lots)
        if (p_.runs[run].day > p_.lots[l].best_before_day)
            return fmt::format("{} is past its best from {}", p_.lots[l].id,
                               day_words(background_, std::floor(p_.lots[l].best_before_day) + 1));
    return "flour past its best";
}

/// The two weightiest things that get worse, as a planner would say them.
std::string AssignmentWords::what_it_costs(const Assignment& a, const Tried& tried,
                                           const std::vector<int>& lots) const {
    constexpr std::size_t most = 2;
    std::vector<std::string> costs;
    const auto changes = tier_changes(p_, a.run, e_.runs[a.run], tried.run, background_.dose);
    for (const TierChange& change : changes) {
        if (!change.is_worse || costs.size() == most)
            continue;
        costs.push_back(change.tier == Tier::past_best ? past_best_words(a.run, lots) : change.words);
    }
    std::string words;
    for (const std::string& cost : costs)
        words += (words.empty() ? "" : ", ") + cost;
    const bool by_youth = std::any_of(changes.begin(), changes.end(), [](const TierChange& change) {
        return change.is_worse && (change.tier == Tier::oxidant || change.tier == Tier::maturity);
    });
    if (by_youth && is_younger(a, tried.use))
        words = fmt::format("{} younger: {}", lots.size() == 1 ? "it is" : "they are", words);
    return words;
}

void AssignmentWords::say_next_best(const Assignment& a, AssignmentReason& reason) const {
    const Tried tried = trial_.without_lot(a.run, a.lot);
    reason.costs_more = tried.dearer;
    double planned_t = 0;
    for (const auto& [l, t] : tried.use)
        planned_t += t;
    if (planned_t <= 0) {
        reason.next_best = fmt::format("No other lot can take its place: {} would be short.",
                                       tonnes_words(p_.runs[a.run].demand_t));
        return;
    }
    const std::vector<int> lots = newcomers(tried.use, uses_[a.run]);
    const std::string costs = what_it_costs(a, tried, lots);
    if (!costs.empty())
        reason.next_best = fmt::format("Next best: {}; {}.", names_of(p_, lots), costs);
    else if (tried.dearer > 0.5)
        reason.next_best = fmt::format("Next best: {}; other runs beside it on the line, or flour that "
                                       "expires, would cost more.",
                                       names_of(p_, lots));
    else
        reason.next_best = fmt::format("{} would serve this run as well.", names_of(p_, lots));
}

} // namespace mellowbin::planning
