#include "planning/trouble_words.h"

#include "core/percent_words.h"
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

TroubleWords::TroubleWords(const Problem& problem, const std::vector<Use>& uses, const Evaluation& evaluation,
                           const Background& background)
    : p_(problem), uses_(uses), background_(background), evaluation_(evaluation),
      cures_(problem, uses, evaluation, background) {}

RunReason TroubleWords::reason(int run) {
    RunReason reason;
    reason.run = run;
    const std::vector<int> possible = banned(run, Ban::none);
    reason.possible_lots = static_cast<int>(possible.size());
    reason.possible = names_of(p_, possible);
    reason.forbidden = forbidden(run);
    const RunResult& result = evaluation_.runs[run];
    if (result.short_t > worth_saying_t)
        reason.troubles.push_back(shortage(run));
    for (int k = 0; k < static_cast<int>(p_.properties.size()); ++k)
        if (std::abs(result.off_window[k]) > worth_saying_of_scale * p_.product_of(run).windows[k].scale)
            reason.troubles.push_back(window(run, k));
    if (result.maturity_gap_points > worth_saying_points)
        reason.troubles.push_back(maturity(run));
    for (Trouble& trouble : reason.troubles) {
        if (p_.runs[run].state == RunState::frozen)
            trouble.why.emplace_back("The run is frozen: nothing of it is changed any more.");
        cures_.add(trouble, run);
    }
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
    } else if (p_.product_of(run).one_lot_a_batch) {
        why.push_back(
            fmt::format("{} are left of lots that may be used, but a batch of {} takes one lot alone, "
                        "inside specification by itself, and at most {} lots go into the run.",
                        tonnes_words(left), tonnes_words(p_.runs[run].batch_t), p_.product_of(run).max_lots));
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

Trouble TroubleWords::shortage(int run) const {
    Trouble trouble;
    trouble.kind = TroubleKind::shortage;
    trouble.amount = evaluation_.runs[run].short_t;
    trouble.what =
        fmt::format("{} of {} are short.", tonnes_words(trouble.amount), tonnes_words(p_.runs[run].demand_t));
    trouble.why = why_short(run);
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
        trouble.why.push_back(
            fmt::format("{} could bring it {}{}.", names_of(p_, able), off < 0 ? "up" : "down",
                        where.empty() ? ", but the rest of the specification or other rules forbid the blend"
                                      : "; planned for " + where));
    }
    return trouble;
}

std::string TroubleWords::at_the_limit(int run) const {
    const auto dose = [&](double ppm) {
        return background_.dose ? background_.dose(run, ppm) : Dose{ppm, "oxidant"};
    };
    const RunResult& result = evaluation_.runs[run];
    return fmt::format("By maturity {} is at its limit: {:.0f} mg/kg from the mill, {:.0f} mg/kg added, "
                       "{:.0f} mg/kg allowed.",
                       dose(0).name, dose(result.mill_oxidant_ppm).mg_per_kg,
                       dose(result.added_oxidant_ppm).mg_per_kg,
                       dose(p_.product_of(run).oxidant_cap_ppm).mg_per_kg);
}

Trouble TroubleWords::maturity(int run) const {
    const RunResult& result = evaluation_.runs[run];
    const Product& product = p_.product_of(run);
    Trouble trouble;
    trouble.kind = TroubleKind::maturity;
    trouble.amount = result.maturity_gap_points;
    trouble.what = fmt::format("Strength is short: {} mature.",
                               percent_of_words(product.maturity_target_points - result.maturity_gap_points,
                                                product.maturity_target_points));
    if (product.oxidant == OxidantPolicy::forbidden)
        trouble.why.emplace_back("Oxidant may not be added to this product.");
    else
        trouble.why.push_back(at_the_limit(run));
    std::vector<int> able;
    for (int l = 0; l < p_.lot_count(); ++l)
        if (p_.usable(l, run) && p_.at(l, run).maturity_points >= product.maturity_target_points)
            able.push_back(l);
    if (able.empty())
        trouble.why.emplace_back("No lot that may be used is mature enough by itself.");
    else if (const std::string where = where_it_went(run, able); !where.empty())
        trouble.why.push_back(fmt::format("{} {} mature enough; planned for {}.", names_of(p_, able),
                                          verb(able.size()), where));
    return trouble;
}

} // namespace mellowbin::planning
