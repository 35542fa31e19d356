#include "planning/trouble_words.h"

#include "planning/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

constexpr double worth_saying_t = 0.0005; // half a kilogram
constexpr double worth_saying_points = 0.05;
constexpr double worth_saying_of_scale = 1e-4;
constexpr Ban rules[] = {Ban::not_arrived,  Ban::not_released, Ban::not_ready, Ban::past_use_by,
                         Ban::held,         Ban::rejected,     Ban::used_up,   Ban::market_forbids_oxidant,
                         Ban::not_measured, Ban::other};

std::string verb(std::size_t count) { return count == 1 ? "is" : "are"; }

} // namespace

TroubleWords::TroubleWords(const Problem& problem, const Plan& plan, const std::vector<Use>& uses,
                           const Background& background)
    : p_(problem), uses_(uses), background_(background), evaluation_(evaluate(problem, plan)) {}

RunReason TroubleWords::reason(int run) const {
    RunReason reason;
    reason.run = run;
    for (int l = 0; l < p_.lot_count(); ++l)
        reason.possible_lots += p_.usable(l, run) ? 1 : 0;
    reason.forbidden = forbidden(run);
    const RunResult& result = evaluation_.runs[run];
    if (result.short_t > worth_saying_t)
        reason.troubles.push_back(shortage(run));
    for (int k = 0; k < static_cast<int>(p_.properties.size()); ++k)
        if (std::abs(result.off_window[k]) > worth_saying_of_scale * p_.product_of(run).windows[k].scale)
            reason.troubles.push_back(window(run, k));
    if (result.maturity_gap_points > worth_saying_points)
        reason.troubles.push_back(maturity(run));
    return reason;
}

std::vector<int> TroubleWords::banned(int run, Ban ban) const {
    std::vector<int> lots;
    for (int l = 0; l < p_.lot_count(); ++l)
        if (p_.at(l, run).ban == ban)
            lots.push_back(l);
    return lots;
}

std::vector<std::string> TroubleWords::forbidden(int run) const {
    constexpr std::size_t most_told = 4;
    std::vector<std::string> sentences;
    for (const Ban rule : rules) {
        const std::vector<int> lots = banned(run, rule);
        if (lots.empty())
            continue;
        if (lots.size() > most_told) {
            sentences.push_back(fmt::format("{}: {}.", rule_words(rule), names_of(p_, lots)));
            continue;
        }
        std::string words = rule_words(rule) + ": ";
        for (std::size_t i = 0; i < lots.size(); ++i) {
            const std::string& note = p_.notes[p_.at(lots[i], run).note];
            if (i > 0)
                words += "; ";
            words += p_.lots[lots[i]].id + (note.empty() ? "" : " " + note);
        }
        sentences.push_back(words + ".");
    }
    return sentences;
}

/// "L3 and L7 are planned for R2 and R5" / "... are left over".
std::string TroubleWords::where_it_went(int run, const std::vector<int>& lots) const {
    std::vector<std::string> runs;
    for (int r = 0; r < p_.run_count(); ++r) {
        const bool takes = std::any_of(lots.begin(), lots.end(), [&](int l) { return uses_[r].contains(l); });
        if (takes && r != run)
            runs.push_back(p_.runs[r].id);
    }
    constexpr std::size_t most_named = 4;
    std::string words;
    for (std::size_t i = 0; i < std::min(most_named, runs.size()); ++i) {
        if (i > 0)
            words += i + 1 == runs.size() ? " and " : ", ";
        words += runs[i];
    }
    if (runs.size() > most_named)
        words += fmt::format(" and {} more", runs.size() - most_named);
    return words;
}

std::vector<std::string> TroubleWords::why_short(int run) const {
    std::vector<std::string> why;
    std::vector<int> usable;
    double stock = 0;
    double left = 0;
    for (int l = 0; l < p_.lot_count(); ++l) {
        if (!p_.usable(l, run))
            continue;
        usable.push_back(l);
        stock += p_.lots[l].stock_t;
        left += std::max(0.0, evaluation_.left_t[l]);
    }
    if (usable.empty()) {
        const bool has_kind = static_cast<int>(banned(run, Ban::wrong_flour).size()) < p_.lot_count();
        why.push_back(has_kind ? "No lot may be used in this run."
                               : "There is no stock of this kind of flour.");
    } else if (left < worth_saying_t) {
        const std::string where = where_it_went(run, usable);
        why.push_back(fmt::format("The {} of the {} lot{} that may be used are all planned{}.",
                                  tonnes_words(stock), usable.size(), usable.size() == 1 ? "" : "s",
                                  where.empty() ? "" : ", also for " + where));
    } else {
        why.push_back(fmt::format("{} are left of lots that may be used, but no blend with at most {} lots "
                                  "and a least share of {:.0f} % is worth it.",
                                  tonnes_words(left), p_.product_of(run).max_lots,
                                  100 * p_.product_of(run).min_share));
    }
    for (const std::string& rule : forbidden(run))
        why.push_back(rule);
    return why;
}

std::vector<std::string> TroubleWords::cures_of_shortage(int run) const {
    std::vector<std::string> cures;
    const auto cure = [&](Ban ban, const char* act) {
        const std::vector<int> lots = banned(run, ban);
        double tonnes = 0;
        for (const int l : lots)
            tonnes += std::max(0.0, evaluation_.left_t[l]);
        if (tonnes > worth_saying_t)
            cures.push_back(fmt::format("{} {}: {} not planned elsewhere.", act, names_of(p_, lots),
                                        tonnes_words(tonnes)));
    };
    cure(Ban::held, "Judge and release");
    cure(Ban::not_released, "Release in time");
    const bool is_locked = std::any_of(p_.locks.begin(), p_.locks.end(), [&](const Lock& lock) {
        return lock.run != run && p_.runs[lock.run].state == RunState::open && p_.usable(lock.lot, run);
    });
    if (is_locked)
        cures.emplace_back("Undo a lock on a lot that may be used here.");
    return cures;
}

void TroubleWords::add_order(Trouble& trouble, int run, double tonnes) const {
    const auto days = background_.days_to_ready ? background_.days_to_ready(run) : std::nullopt;
    if (!days)
        return;
    const double by = p_.runs[run].day - *days;
    trouble.order_by_day = by;
    if (by >= background_.today)
        trouble.cures.push_back(fmt::format("Order {} to arrive by {}: ready in time without oxidant.",
                                            tonnes_words(tonnes), day_words(background_, by)));
    else
        trouble.cures.push_back(fmt::format(
            "New flour would have had to arrive by {}; from now on it needs oxidant or a later run.",
            day_words(background_, by)));
}

Trouble TroubleWords::shortage(int run) const {
    Trouble trouble;
    trouble.kind = TroubleKind::shortage;
    trouble.amount = evaluation_.runs[run].short_t;
    trouble.what =
        fmt::format("{} of {} are short.", tonnes_words(trouble.amount), tonnes_words(p_.runs[run].demand_t));
    trouble.why = why_short(run);
    trouble.cures = cures_of_shortage(run);
    add_order(trouble, run, trouble.amount);
    return trouble;
}

Trouble TroubleWords::window(int run, int property) const {
    const double off = evaluation_.runs[run].off_window[property];
    const Window& window = p_.product_of(run).windows[property];
    Trouble trouble;
    trouble.kind = TroubleKind::window;
    trouble.property = property;
    trouble.amount = off;
    trouble.what = sentence(value_words(p_, property, evaluation_.runs[run].blend[property])) + ": " +
                   off_window_words(p_, property, off) + ".";
    const auto helps = [&](int l) {
        const double value = p_.lots[l].values[property];
        return off < 0 ? value > window.low.value_or(value) : value < window.high.value_or(value);
    };
    std::vector<int> able;
    for (int l = 0; l < p_.lot_count(); ++l)
        if (p_.usable(l, run) && helps(l))
            able.push_back(l);
    if (able.empty()) {
        trouble.why.push_back(
            fmt::format("No lot that may be used could bring it {}.", off < 0 ? "up" : "down"));
    } else {
        const std::string where = where_it_went(run, able);
        trouble.why.push_back(fmt::format(
            "{} could bring it {}{}.", names_of(p_, able), off < 0 ? "up" : "down",
            where.empty() ? ", but other windows or rules forbid the blend" : "; planned for " + where));
    }
    return trouble;
}

Trouble TroubleWords::maturity(int run) const {
    const RunResult& result = evaluation_.runs[run];
    const Product& product = p_.product_of(run);
    Trouble trouble;
    trouble.kind = TroubleKind::maturity;
    trouble.amount = result.maturity_gap_points;
    trouble.what = fmt::format(
        "{:.1f} points of maturity are missing: {:.1f} of {:.1f}.", result.maturity_gap_points,
        product.maturity_target_points - result.maturity_gap_points, product.maturity_target_points);
    if (product.oxidant == OxidantPolicy::forbidden)
        trouble.why.emplace_back("Oxidant may not be added to this product.");
    else
        trouble.why.push_back(fmt::format(
            "Oxidant is at its limit: {:.0f} ppm from the mill, {:.0f} ppm added, {:.0f} ppm allowed.",
            result.mill_oxidant_ppm, result.added_oxidant_ppm, product.oxidant_cap_ppm));
    std::vector<int> able;
    for (int l = 0; l < p_.lot_count(); ++l)
        if (p_.usable(l, run) && p_.at(l, run).maturity_points >= product.maturity_target_points)
            able.push_back(l);
    if (able.empty())
        trouble.why.emplace_back("No lot that may be used is mature enough by itself.");
    else if (const std::string where = where_it_went(run, able); !where.empty())
        trouble.why.push_back(fmt::format("{} {} mature enough; planned for {}.", names_of(p_, able),
                                          verb(able.size()), where));
    add_order(trouble, run, result.planned_t);
    return trouble;
}

} // namespace mellowbin::planning
