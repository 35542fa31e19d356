#include "planning/assignment_words.h"

#include "planning/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

/// What is dearer in the other plan of a run, dearest first; at most `most` of it.
std::vector<std::string> dearer(const Problem& p, int run, const RunResult& now, const RunResult& then,
                                std::size_t most) {
    struct Piece {
        double cost;
        std::string words;
    };
    std::vector<Piece> pieces;
    const auto add = [&](double more, auto words) {
        if (more > 0.5)
            pieces.push_back({more, words()});
    };
    add(then.parts.shortage - now.parts.shortage,
        [&] { return tonnes_words(then.short_t - now.short_t) + " more would be short"; });
    add(then.parts.windows - now.parts.windows, [&] {
        std::string words = "further outside the windows";
        double worst = 0;
        for (std::size_t k = 0; k < then.off_window.size(); ++k) {
            const double off = std::abs(then.off_window[k]) / p.product_of(run).windows[k].scale;
            if (off <= worst)
                continue;
            worst = off;
            words = off_window_words(p, static_cast<int>(k), then.off_window[k]);
        }
        return words;
    });
    add(then.parts.maturity - now.parts.maturity, [&] {
        return fmt::format("{:.1f} more points of maturity missing",
                           then.maturity_gap_points - now.maturity_gap_points);
    });
    add(then.parts.oxidant - now.parts.oxidant, [&] {
        return fmt::format("{:.0f} ppm more oxidant", then.added_oxidant_ppm - now.added_oxidant_ppm);
    });
    add(then.parts.past_best - now.parts.past_best, [] { return std::string("more flour past its best"); });
    add(then.parts.lot_changes - now.parts.lot_changes, [&] {
        const int more = then.lot_changes - now.lot_changes;
        return fmt::format("{} more lot change{}", more, more == 1 ? "" : "s");
    });
    add(then.parts.age - now.parts.age, [] { return std::string("flour that would keep longer"); });
    add(then.parts.cost - now.parts.cost, [] { return std::string("dearer flour"); });
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Piece& a, const Piece& b) { return a.cost > b.cost; });
    std::vector<std::string> words;
    for (std::size_t i = 0; i < std::min(most, pieces.size()); ++i)
        words.push_back(pieces[i].words);
    return words;
}

} // namespace

AssignmentWords::AssignmentWords(const Problem& problem, const Plan& plan, const std::vector<Use>& uses,
                                 const Background& background)
    : p_(problem), uses_(uses), background_(background), tables_(make_tables(problem)),
      draft_(problem, tables_) {
    draft_.take_over(plan);
}

AssignmentReason AssignmentWords::reason(const Assignment& a) {
    AssignmentReason reason{a.run, a.lot, kept(a), {}};
    if (!reason.why.empty())
        return reason;
    reason.why = why(a);
    reason.next_best = next_best(a);
    return reason;
}

std::string AssignmentWords::kept(const Assignment& a) const {
    if (p_.runs[a.run].state == RunState::frozen)
        return "Kept as it is: the run is frozen.";
    const std::vector<int>& locked = tables_.locked[a.run];
    if (std::find(locked.begin(), locked.end(), a.lot) != locked.end())
        return "Kept: locked by a person.";
    return {};
}

std::string AssignmentWords::why(const Assignment& a) const {
    std::vector<std::string> found;
    for (std::string words :
         {brings_into_window(a), brings_maturity(a), carries_on(a), place_in_age_and_price(a)})
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
    return fmt::format("Brings {} {} {} the window; without it {}.",
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
    return fmt::format("Its maturity ({:.0f} points) makes up for what the rest lacks ({:.0f} of {:.0f}).",
                       own, rest / rest_t, target);
}

std::string AssignmentWords::carries_on(const Assignment& a) const {
    const int prev = p_.runs[a.run].prev_on_line;
    if (prev >= 0 && uses_[prev].contains(a.lot))
        return fmt::format("Same flour as {} before it on the line: no change.", p_.runs[prev].id);
    for (const int next : tables_.next[a.run])
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

std::string AssignmentWords::next_best(const Assignment& a) {
    const RunTable& table = tables_.runs[a.run];
    if (table.fill_t <= 0)
        return {};
    const Blend planned = draft_.blend(a.run);
    draft_.empty(a.run);
    const Blend other = draft_.best_without(a.run, a.lot);
    draft_.put(a.run, planned);

    Use use;
    for (const Lock& lock : p_.locks)
        if (lock.run == a.run)
            use[lock.lot] += lock.tonnes;
    std::vector<int> lots;
    for (int i = 0; i < other.count; ++i) {
        lots.push_back(table.lot[other.parts[i].candidate]);
        use[lots.back()] += other.parts[i].share * table.fill_t;
    }
    if (lots.empty())
        return fmt::format("No other lot can take its place: {} would be short.", tonnes_words(table.fill_t));
    std::sort(lots.begin(), lots.end());
    const std::vector<std::string> costs =
        dearer(p_, a.run, judged(a.run, uses_[a.run]), judged(a.run, use), 2);
    if (costs.empty())
        return fmt::format("{} would serve this run as well.", names_of(p_, lots));
    std::string words = fmt::format("Next best: {}; {}", names_of(p_, lots), costs[0]);
    if (costs.size() > 1)
        words += ", " + costs[1];
    return words + ".";
}

} // namespace mellowbin::planning
