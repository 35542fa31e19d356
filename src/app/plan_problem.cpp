#include "app/plan_problem.h"

#include "app/setting_table.h"
#include "core/decimal.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace mellowbin::app {
namespace {

using planning::Ban;

/// Properties that blend linearly and that products have windows for; falling number by its liquefaction
/// number. Strength values do not blend: they are never planned on.
constexpr std::array planned_properties{Property::protein, Property::absorption, Property::falling_number,
                                        Property::ash,     Property::wet_gluten, Property::starch_damage};

constexpr double beyond_all_days = 36500;

double day_of(Day day, PlanSpan span) { return static_cast<double>((day - span.from).count()); }

double tonnes(Grams g) { return static_cast<double>(g.count()) * 1e-6; }

double liquefaction(double falling_number) { return to_liquefaction(FallingNumber{falling_number}).value(); }

/// A figure that is not known stands as 0: the lot is banned from every run whose product asks for it
/// (missing_figure), and where nobody asks, the window is open on both sides.
double planned_value(const Lot& lot, Property property) {
    const auto value = comparable_at_14(lot.certificate, property);
    if (!value)
        return 0;
    return property == Property::falling_number ? liquefaction(*value) : *value;
}

planning::Window planned_window(const Product& product, Property property) {
    planning::Window planned;
    for (const auto& window : product.windows) {
        if (window.property != property)
            continue;
        if (property != Property::falling_number)
            return {window.low, window.high, window.half_width()};
        // The liquefaction number falls as the falling number rises: the ends change places.
        if (window.high)
            planned.low = liquefaction(*window.high);
        if (window.low)
            planned.high = liquefaction(*window.low);
        const double low = planned.low.value_or(liquefaction(400));
        const double high = planned.high.value_or(liquefaction(200));
        planned.scale = std::max((high - low) / 2, 1.0);
        return planned;
    }
    return planned;
}

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
    return w;
}

/// mg/kg of the substance that do what one mg/kg of ascorbic acid does, for a flour of usual protein.
double ppm_per_counted(Substance substance) {
    if (substance == Substance::ascorbic_acid)
        return 1;
    constexpr Protein14 usual{12}; // where the ratio is read; the card doses by the blend's own protein
    const auto need = dough::oxidant_for(substance, Maturity{0}, Maturity{0.5}, {usual, {}});
    if (!need || need->ascorbic_acid.value() <= 0)
        return 1;
    return need->dose / need->ascorbic_acid;
}

RunOxidant run_oxidant(const Book& book, const Product& product, Day day) {
    if (!product.oxidant)
        return {};
    const dough::Law law{book.limits, book.markets};
    RunOxidant oxidant;
    oxidant.room = dough::room_for(law, {product.market, product.food, day}, *product.oxidant, {},
                                   product.house_maximum);
    oxidant.ppm_per_counted = ppm_per_counted(*product.oxidant);
    return oxidant;
}

planning::Product planned_product(const Product& product, const RunOxidant& oxidant) {
    planning::Product planned;
    planned.name = product.name;
    for (const Property property : planned_properties)
        planned.windows.push_back(planned_window(product, property));
    planned.maturity_target_points = product.maturity_target.value() * 100;
    planned.max_lots = product.most_lots;
    planned.min_share = product.least_share;
    const bool may =
        product.oxidant && oxidant.room.permission == dough::Permission::permitted && oxidant.room.most;
    planned.oxidant = may ? planning::OxidantPolicy::allowed : planning::OxidantPolicy::forbidden;
    // Without leave to add, the mill's own part is judged lot by lot (see ban_of), not by this cap.
    planned.oxidant_cap_ppm = may ? oxidant.room.most->value() / oxidant.ppm_per_counted : 1e6;
    return planned;
}

/// Grams that runs outside the problem have a claim on.
Grams claimed_elsewhere(const Book& book, LotId lot, PlanSpan span) {
    Grams claimed;
    for (const auto& a : book.assignments) {
        if (a.lot != lot)
            continue;
        const Run* run = book.run(a.run);
        if (!run || run->day < span.today || span.holds(run->day))
            continue;
        claimed += std::max(Grams{0}, a.mass - book.used_for(run->id, lot));
    }
    return claimed;
}

/// mg/kg of the oxidants that this plant's products dose, which the mill put in already.
double counted_mill_ppm(const Book& book, const Lot& lot) {
    double ppm = 0;
    for (const auto& addition : lot.mill_additions) {
        const bool is_dosed = std::any_of(book.products.begin(), book.products.end(),
                                          [&](const Product& p) { return p.oxidant == addition.substance; });
        if (is_dosed)
            ppm += addition.dose.value() / ppm_per_counted(addition.substance);
    }
    return ppm;
}

/// Per tonne; a lot whose price is not known counts as the mean of its flour's others, not as a gift.
double price_of(const Book& book, const Lot& lot) {
    if (lot.price_per_tonne_minor > 0)
        return static_cast<double>(lot.price_per_tonne_minor) / 100;
    double sum = 0;
    int known = 0;
    for (const auto& other : book.lots) {
        if (other.flour != lot.flour || other.price_per_tonne_minor <= 0)
            continue;
        sum += static_cast<double>(other.price_per_tonne_minor) / 100;
        ++known;
    }
    return known > 0 ? sum / known : 0;
}

planning::Lot planned_lot(const Book& book, const Estimates& estimates, const Lot& lot, PlanSpan span) {
    const auto& turns = estimates.outlook_today(lot.id).turns;
    planning::Lot planned;
    planned.id = lot.code;
    planned.stock_t = std::max(0.0, tonnes(book.stock.total(lot.id) - claimed_elsewhere(book, lot.id, span)));
    const auto past_best = turns.past_best_from;
    planned.best_before_day = past_best ? day_of(*past_best, span) : beyond_all_days;
    // What the supplier printed is the last day; without it the window's end by the age clock and as long
    // again as it took from "use first".
    planned.use_by_day = lot.best_before ? day_of(*lot.best_before, span) : planned.best_before_day + 60;
    if (planned.best_before_day > planned.use_by_day)
        planned.best_before_day = planned.use_by_day;
    planned.cost_per_t = price_of(book, lot);
    planned.mill_oxidant_ppm = counted_mill_ppm(book, lot);
    for (const Property property : planned_properties)
        planned.values.push_back(planned_value(lot, property));
    return planned;
}

struct BanWords {
    Ban ban = Ban::none;
    std::string words;
};

/// A figure that the product has a window for and the lot does not have, or has by another method.
BanWords missing_figure(const Lot& lot, const Product& product) {
    for (const auto& judgement : judge(lot.certificate, product.windows)) {
        const Property property = judgement.window.property;
        const bool is_planned = std::find(planned_properties.begin(), planned_properties.end(), property) !=
                                planned_properties.end();
        const bool is_known =
            judgement.verdict != Verdict::missing && judgement.verdict != Verdict::not_comparable;
        if (is_planned && !is_known)
            return {Ban::not_measured, fmt::format("{}: {}", traits(property).name, judgement.words)};
    }
    return {};
}

BanWords ban_of(const Book& book, const Estimates& estimates, double least_chance, const Lot& lot,
                const Run& run, const Product& product) {
    if (lot.flour != product.flour)
        return {Ban::wrong_flour, ""};
    if (lot.state == LotState::awaiting_judgement)
        return {Ban::not_released, "nobody has judged it yet"};
    if (lot.state == LotState::held)
        return {Ban::held, fmt::format("it is held: {}", lot.state_reason)};
    if (lot.state == LotState::rejected)
        return {Ban::rejected, ""};
    if (lot.state == LotState::used_up)
        return {Ban::used_up, ""};
    if (lot.best_before && *lot.best_before < run.day)
        return {Ban::past_use_by, "past the supplier's best-before day"};
    if (!lot.mill_additions.empty() && !product.oxidant)
        return {Ban::other, "the mill added an oxidant, and the product goes without"};
    const Flour* flour = book.flour(lot.flour);
    const auto judged = dough::judge_lot({book.limits, book.markets}, {product.market, product.food, run.day},
                                         flour ? flour->flour_class : FlourClass::white, lot.mill_additions);
    if (!judged.is_permitted())
        return {Ban::market_forbids_oxidant, judged.words};
    const auto cuts = aging::published_cut_points();
    const double usable = estimates.of(lot.id).probability_of(Maturity{cuts.usable_maturity}, run.day);
    if (usable < least_chance)
        return {Ban::not_ready,
                fmt::format("too young: only {:.0f} % likely to be half matured by then", usable * 100)};
    return missing_figure(lot, product);
}

/// Points of maturity with what the mill added counted in.
double maturity_points(const Estimates& estimates, const Lot& lot, Day day) {
    const Maturity natural = counted_maturity(estimates, lot.id, day);
    if (lot.mill_additions.empty())
        return natural.value() * 100;
    std::optional<Protein14> protein;
    if (const auto value = comparable_at_14(lot.certificate, Property::protein))
        protein = Protein14{*value};
    const auto effect = dough::effect_of(natural, lot.mill_additions, protein);
    return (effect ? effect->maturity : natural).value() * 100;
}

void fill_runs(const Book& book, PlanProblem& p) {
    std::map<std::int64_t, int> last_on_line;
    for (const auto& run : book.runs) {
        const Product* product = book.product(run.product);
        if (!product || run.day < p.span.today || !p.span.holds(run.day))
            continue;
        planning::Run planned;
        planned.id = run.code;
        planned.day = day_of(run.day, p.span);
        planned.shift = run.sequence;
        planned.line = static_cast<int>(run.line.number());
        planned.demand_t = tonnes(run.flour);
        planned.product = static_cast<int>(p.problem.products.size());
        const auto last = last_on_line.find(run.line.number());
        planned.prev_on_line = last == last_on_line.end() ? -1 : last->second;
        last_on_line[run.line.number()] = static_cast<int>(p.problem.runs.size());
        if (book.used_for(run.id) > Grams{0})
            planned.state = planning::RunState::frozen;
        p.oxidants.push_back(run_oxidant(book, *product, run.day));
        p.problem.products.push_back(planned_product(*product, p.oxidants.back()));
        p.problem.runs.push_back(planned);
        p.runs.push_back(run.id);
    }
}

void fill_table(const Book& book, const Estimates& estimates, PlanProblem& p) {
    p.problem.size_table();
    const double least_chance = Choices(book.settings).number("least_chance_to_plan");
    for (int r = 0; r < p.problem.run_count(); ++r) {
        const Run& run = *book.run(p.runs[static_cast<std::size_t>(r)]);
        const Product& product = *book.product(run.product);
        for (int l = 0; l < p.problem.lot_count(); ++l) {
            const Lot& lot = *book.lot(p.lots[static_cast<std::size_t>(l)]);
            const auto why = ban_of(book, estimates, least_chance, lot, run, product);
            if (why.ban != Ban::none)
                p.problem.ban(l, r, why.ban, why.words);
            if (why.ban != Ban::wrong_flour)
                p.problem.at(l, r).maturity_points = maturity_points(estimates, lot, run.day);
        }
    }
}

/// Locked assignments stay; so does what is left of a run that is being mixed.
void fill_locks(const Book& book, PlanProblem& p) {
    for (int r = 0; r < p.problem.run_count(); ++r) {
        planning::Run& run = p.problem.runs[static_cast<std::size_t>(r)];
        const RunId id = p.runs[static_cast<std::size_t>(r)];
        const bool frozen = run.state == planning::RunState::frozen;
        double kept = 0;
        for (const auto& a : book.assignments_of(id)) {
            const auto lot = std::find(p.lots.begin(), p.lots.end(), a.lot);
            if (lot == p.lots.end() || (!a.is_locked && !frozen))
                continue;
            const Grams left = frozen ? a.mass - book.used_for(id, a.lot) : a.mass;
            if (left <= Grams{0})
                continue;
            p.problem.locks.push_back({r, static_cast<int>(lot - p.lots.begin()), tonnes(left)});
            kept += tonnes(left);
        }
        if (frozen)
            run.demand_t = kept;
    }
}

} // namespace

Maturity counted_maturity(const Estimates& estimates, LotId lot, Day day) {
    return estimates.of(lot).maturity_at(1 - estimates.confidence(), day);
}

PlanProblem plan_problem(const Book& book, const Estimates& estimates, PlanSpan span) {
    PlanProblem p;
    p.span = span;
    p.problem.name = book.runs.empty() ? "" : iso(span.from);
    p.problem.horizon_days = span.days;
    p.problem.oxidant_points_per_ppm = 100.0 / dough::ascorbic_acid_for_all_aging().value();
    p.problem.weights = weights_of(book);
    for (const Property property : planned_properties) {
        const auto& kind = traits(property);
        if (property == Property::falling_number)
            p.problem.properties.push_back({"Liquefaction number", "", 1});
        else
            p.problem.properties.push_back({std::string(kind.name), std::string(kind.unit), kind.decimals});
    }
    fill_runs(book, p);
    for (const auto& lot : book.lots) {
        const bool is_gone = lot.state == LotState::rejected || book.stock.total(lot.id) <= Grams{0};
        if (is_gone)
            continue;
        p.problem.lots.push_back(planned_lot(book, estimates, lot, span));
        p.lots.push_back(lot.id);
    }
    fill_table(book, estimates, p);
    fill_locks(book, p);
    return p;
}

} // namespace mellowbin::app
