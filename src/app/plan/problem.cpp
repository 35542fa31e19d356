#include "app/plan/problem.h"

#include "app/book/settings.h"
#include "app/plan/bans.h"
#include "app/plan/lots.h"
#include "app/plan/runs.h"
#include "app/plan/units.h"
#include "core/lot_words.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

using planning::Ban;

planning::Weights weights_of(const Book& book) {
    const Choices choices(book.settings);
    planning::Weights w;
    w.short_per_t = choices.number("weight_short");
    w.window_per_t_half_width = choices.number("weight_window");
    w.maturity_per_t_10_points = choices.number("weight_maturity");
    w.past_best_per_t = choices.number("weight_past_best");
    w.waste_per_t = choices.number("weight_waste");
    w.oxidant_per_t_100_ppm = choices.number("weight_oxidant");
    w.lot_change = choices.number("weight_lot_change");
    w.age_quadratic = choices.number("weight_age");
    w.cost_scale = choices.number("weight_price");
    w.age_quadratic = choices.number("weight_age");
    w.cost_scale = choices.number("weight_price");
    return w;
}

void fill_lots(const Book& book, const FloursToPlan& flours, PlanProblem& p) {
    for (const auto& flour : flours.flours) {
        p.problem.lots.push_back(planned_lot(book, flour, p.span));
        p.lots.push_back(flour.lot.id);
        p.deliveries.push_back(flour.delivery);
        p.portions.push_back(flour.named);
    }
    p.problem.chains = flours.chains;
}

void fill_table(const Book& book, const Estimates& estimates, const std::vector<PlanFlour>& flours,
                PlanProblem& p) {
    p.problem.size_table();
    const Bans bans(book, p.span.today);
    for (int r = 0; r < p.problem.run_count(); ++r) {
        const auto index = static_cast<std::size_t>(r);
        const Run& run = *book.run(p.runs[index]);
        const Product& product = *book.product(run.product);
        for (int l = 0; l < p.problem.lot_count(); ++l) {
            const PlanFlour& flour = flours[static_cast<std::size_t>(l)];
            const auto why = bans.of(flour, run, product, p.parts[index]);
            if (why.ban != Ban::none)
                p.problem.ban(l, r, why.ban, why.words);
            if (why.ban != Ban::wrong_flour)
                p.problem.at(l, r).maturity_points = maturity_points(flour, estimates.confidence(), run.day);
        }
    }
}

/// Puts the locks of one need into the problem, and takes what frozen runs have from what is there.
class Locks {
public:
    Locks(const Book& book, const std::vector<PlanFlour>& flours, PlanProblem& p)
        : book_(book), flours_(flours), p_(p), index_(p) {
        for (const auto& lot : p.problem.lots)
            free_.push_back(Grams{std::llround(lot.stock_t * 1e6)});
    }

    /// Locked assignments stay; a frozen run keeps what is left of all it has, as far as it is there.
    void fill(int r) {
        const auto index = static_cast<std::size_t>(r);
        const bool frozen = p_.problem.runs[index].state == planning::RunState::frozen;
        kept_ = {};
        for (const auto& a : book_.assignments_of(p_.runs[index]))
            if (a.is_locked || frozen)
                for (const auto& [flour, mass] :
                     index_.take(a.lot, frozen ? a.mass - book_.used_for(a.run, a.lot) : a.mass))
                    keep(r, flour, mass);
        if (!frozen)
            return;
        for (const auto& promise : book_.promises_of(p_.runs[index]))
            keep(r, index_.of(promise.delivery), promise.mass);
        p_.needs[index] = kept_;
        p_.problem.runs[index].demand_t = tonnes(kept_);
    }

private:
    /// Flour of a kind that the formula has not stands with its first one, where it is refused.
    [[nodiscard]] bool belongs(int r, std::size_t flour) const {
        const auto index = static_cast<std::size_t>(r);
        const Product& product = *book_.product(book_.run(p_.runs[index])->product);
        return part_of(product, flours_[flour].lot.flour).value_or(FlourPart::main) == p_.parts[index];
    }
    void keep(int r, int index, Grams mass) {
        if (index < 0 || !belongs(r, static_cast<std::size_t>(index)))
            return;
        auto& free = free_[static_cast<std::size_t>(index)];
        if (p_.problem.runs[static_cast<std::size_t>(r)].state == planning::RunState::frozen)
            mass = std::min(mass, free);
        if (mass <= Grams{0})
            return;
        free = free - mass;
        kept_ += mass;
        const auto same = std::ranges::find_if(p_.problem.locks, [&](const planning::Lock& lock) {
            return lock.run == r && lock.lot == index; // of a silo's flour, by another of its lots
        });
        if (same != p_.problem.locks.end())
            same->tonnes += tonnes(mass);
        else
            p_.problem.locks.push_back({r, index, tonnes(mass)});
    }

    const Book& book_;
    const std::vector<PlanFlour>& flours_;
    PlanProblem& p_;
    FlourIndex index_;
    std::vector<Grams> free_;
    Grams kept_;
};

void fill_locks(const Book& book, const std::vector<PlanFlour>& flours, PlanProblem& p) {
    Locks locks(book, flours, p);
    for (int r = 0; r < p.problem.run_count(); ++r)
        locks.fill(r);
}

void fill_properties(PlanProblem& p) {
    for (const Property property : planned_properties) {
        const auto& kind = traits(property);
        if (property == Property::falling_number)
            p.problem.properties.push_back({"Liquefaction number", "", 1});
        else
            p.problem.properties.push_back({std::string(kind.name), std::string(kind.unit), kind.decimals});
    }
}

} // namespace

FlourIndex::FlourIndex(const PlanProblem& p) {
    for (std::size_t i = 0; i < p.lots.size(); ++i) {
        const auto index = static_cast<int>(i);
        if (p.lots[i].is_known())
            lots_.emplace(p.lots[i], index);
        else if (p.deliveries[i].is_known())
            deliveries_.emplace(p.deliveries[i], index);
        for (const auto& name : p.portions[i])
            in_silos_[name.lot].emplace_back(index, name.mass);
    }
}

int FlourIndex::of(ExpectedId delivery) const {
    const auto at = deliveries_.find(delivery);
    return at == deliveries_.end() ? -1 : at->second;
}

std::vector<std::pair<int, Grams>> FlourIndex::take(LotId lot, Grams mass) {
    std::vector<std::pair<int, Grams>> taken;
    const auto by_itself = lots_.find(lot);
    if (const auto in_silos = in_silos_.find(lot); in_silos != in_silos_.end()) {
        for (auto& [index, left] : in_silos->second) {
            const Grams part = std::min(left, mass);
            if (part <= Grams{0})
                continue;
            left = left - part;
            mass = mass - part;
            taken.emplace_back(index, part);
        }
        if (by_itself == lots_.end() && mass > Grams{0}) // more than lies there, so that it is seen
            taken.emplace_back(in_silos->second.back().first, mass);
    }
    if (by_itself != lots_.end() && mass > Grams{0})
        taken.emplace_back(by_itself->second, mass);
    return taken;
}

Maturity counted_maturity(const Estimates& estimates, LotId lot, Day day) {
    return estimates.of(lot).maturity_at(1 - estimates.confidence(), day);
}

std::string why_not_in(const Book& book, const Estimates& estimates, LotId lot, const Run& run, Day today) {
    const Product* product = book.product(run.product);
    if (!product || !book.lot(lot))
        return "it is not in the book";
    const auto part = part_of(*product, book.lot(lot)->flour);
    if (!part)
        return "it is another flour than the product asks for";
    const auto why = Bans(book, today).of(flour_of_lot(book, estimates, lot), run, *product, *part);
    if (why.ban == Ban::none || !why.words.empty())
        return why.words;
    return fmt::format("it is {}", in_words(book.lot(lot)->state));
}

PlanProblem plan_problem(const Book& book, const Estimates& estimates, PlanSpan span) {
    PlanProblem p;
    p.span = span;
    p.problem.name = book.runs.empty() ? "" : iso(span.from);
    p.problem.horizon_days = span.days;
    p.problem.oxidant_points_per_ppm = 100.0 / dough::ascorbic_acid_for_all_aging().likely.value();
    p.problem.weights = weights_of(book);
    fill_properties(p);
    fill_runs(book, p);
    const auto flours = flours_to_plan(book, estimates, span);
    fill_lots(book, flours, p);
    fill_table(book, estimates, flours.flours, p);
    fill_locks(book, flours.flours, p);
    return p;
}

} // namespace mellowbin::app
