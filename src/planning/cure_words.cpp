#include "planning/cure_words.h"

#include "planning/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

/// Cures are tried for so many troubles in all and for so many lots and locks of each: a plan in which
/// everything is short is not helped by more.
constexpr int most_trials = 600;
constexpr int most_a_trouble = 4;
constexpr double slight_gain = 1e-3; // of the trouble's amount

} // namespace

CureWords::CureWords(const Problem& problem, const std::vector<Use>& uses, const Evaluation& evaluation,
                     const Background& background)
    : p_(problem), uses_(uses), e_(evaluation), background_(background), trial_(problem, uses, evaluation),
      trials_left_(most_trials) {}

void CureWords::add(Trouble& trouble, int run) {
    if (p_.runs[run].state == RunState::frozen)
        return;
    add_releases(trouble, run);
    add_locks(trouble, run);
    add_order(trouble, run);
    add_levers(trouble, run);
}

double CureWords::size_of(const Trouble& trouble, const RunResult& result) const {
    switch (trouble.kind) {
    case TroubleKind::shortage:
        return result.short_t;
    case TroubleKind::window:
        return std::abs(result.off_window[trouble.property]);
    case TroubleKind::maturity:
        break;
    }
    return result.maturity_gap_points;
}

std::string CureWords::what_is_left(const Trouble& trouble, int run, const RunResult& result) const {
    const double left = size_of(trouble, result);
    switch (trouble.kind) {
    case TroubleKind::shortage:
        return left < 0.0005 ? "nothing would be short" : tonnes_words(left) + " would still be short";
    case TroubleKind::window:
        if (left < 1e-4 * p_.product_of(run).windows[trouble.property].scale)
            return "the blend would be inside specification";
        return off_window_words(p_, trouble.property, result.off_window[trouble.property]) + " would be left";
    case TroubleKind::maturity:
        break;
    }
    return left < 0.05 ? "nothing would be missing"
                       : fmt::format("{:.1f} points would still be missing", left);
}

/// A lot that lies on the wrong side of the window, or is no more mature than the blend, need not be tried.
bool CureWords::may_help(const Trouble& trouble, int run, int lot) const {
    if (e_.left_t[lot] < 0.0005)
        return false;
    if (trouble.kind == TroubleKind::window) {
        const double value = p_.lots[lot].values[trouble.property];
        const double blend = e_.runs[run].blend[trouble.property];
        return trouble.amount < 0 ? value > blend : value < blend;
    }
    return trouble.kind == TroubleKind::shortage ||
           p_.at(lot, run).maturity_points > e_.runs[run].maturity_points;
}

void CureWords::add_releases(Trouble& trouble, int run) {
    std::vector<int> lots;
    for (int l = 0; l < p_.lot_count(); ++l) {
        const Ban ban = p_.at(l, run).ban;
        if ((ban == Ban::held || ban == Ban::not_released) && may_help(trouble, run, l))
            lots.push_back(l);
    }
    std::stable_sort(lots.begin(), lots.end(), [&](int a, int b) { return e_.left_t[a] > e_.left_t[b]; });
    int tried_here = 0;
    for (const int l : lots) {
        if (tried_here++ == most_a_trouble || trials_left_-- <= 0)
            return;
        const auto tried = trial_.with_lot_allowed(run, l);
        if (!tried || size_of(trouble, tried->run) > std::abs(trouble.amount) * (1 - slight_gain))
            continue;
        const char* act = p_.at(l, run).ban == Ban::held ? "Judge and release" : "Release in time";
        trouble.cures.push_back(fmt::format("{} {}: {} not planned elsewhere; {}.", act, p_.lots[l].id,
                                            tonnes_words(e_.left_t[l]),
                                            what_is_left(trouble, run, tried->run)));
    }
}

std::string CureWords::lock_words(const Trouble& trouble, int run, const Lock& lock,
                                  const Tried& tried) const {
    std::string words = lock.run == run ? fmt::format("Undo the lock of {} here", p_.lots[lock.lot].id)
                                        : fmt::format("Undo the lock of {} to {}", p_.lots[lock.lot].id,
                                                      p_.runs[lock.run].id);
    words += ": " + what_is_left(trouble, run, tried.run);
    if (!tried.other)
        return words + ".";
    if (tried.other->short_t > e_.runs[lock.run].short_t + 0.0005)
        return fmt::format("{}; {} would be {} short.", words, p_.runs[lock.run].id,
                           tonnes_words(tried.other->short_t));
    return fmt::format("{}; {} would be served all the same.", words, p_.runs[lock.run].id);
}

/// Locks on lots that this run may use, and its own; named where the whole plan gains as well.
void CureWords::add_locks(Trouble& trouble, int run) {
    int tried_here = 0;
    for (const Lock& lock : p_.locks) {
        if (lock.tonnes <= 0 || p_.runs[lock.run].state == RunState::frozen)
            continue;
        if (lock.run != run && !p_.usable(lock.lot, run))
            continue;
        if (tried_here++ == most_a_trouble || trials_left_-- <= 0)
            return;
        const Tried tried = trial_.without_lock(run, lock);
        const bool helps = size_of(trouble, tried.run) <= std::abs(trouble.amount) * (1 - slight_gain);
        if (helps && tried.dearer < -0.5)
            trouble.cures.push_back(lock_words(trouble, run, lock, tried));
    }
}

/// What must be ordered. Values blend by mass: with half of the flour new, the new half must lie as far
/// inside the window as the blend lies outside.
std::string CureWords::order_words(const Trouble& trouble, int run) const {
    if (trouble.kind == TroubleKind::shortage)
        return "Order " + tonnes_words(trouble.amount);
    const double planned = e_.runs[run].planned_t;
    if (trouble.kind == TroubleKind::maturity)
        return "Order " + tonnes_words(planned);
    const Product& product = p_.product_of(run);
    const Window& window = product.windows[trouble.property];
    const bool is_below = trouble.amount < 0;
    const double edge = is_below ? *window.low : *window.high;
    const bool has_room = !product.one_lot_a_batch && static_cast<int>(uses_[run].size()) < product.max_lots;
    const double value = has_room ? edge - trouble.amount : edge;
    return fmt::format("Order {} with {} or {}", tonnes_words(has_room ? planned / 2 : planned),
                       value_words(p_, trouble.property, value), is_below ? "more" : "less");
}

void CureWords::add_order(Trouble& trouble, int run) const {
    const auto days = background_.days_to_ready ? background_.days_to_ready(run) : std::nullopt;
    if (!days)
        return;
    const double by = p_.runs[run].day - *days;
    trouble.order_by_day = by;
    if (by >= background_.today)
        trouble.cures.push_back(fmt::format("{} to arrive by {}: ready in time without oxidant.",
                                            order_words(trouble, run), day_words(background_, by)));
    else
        trouble.cures.push_back(fmt::format(
            "New flour would have had to arrive by {}; from now on it needs oxidant or a later run.",
            day_words(background_, by)));
}

void CureWords::add_levers(Trouble& trouble, int run) const {
    if (trouble.kind == TroubleKind::maturity && p_.product_of(run).oxidant == OxidantPolicy::forbidden)
        trouble.cures.emplace_back("Without oxidant what is left is a longer fermentation or a later day.");
}

} // namespace mellowbin::planning
