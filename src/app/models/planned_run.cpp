#include "app/models/planned_run.h"

#include "app/plan/freeze.h"
#include "app/plan/given.h"
#include "app/plan/lots.h"
#include "app/plan/problem.h"
#include "app/plan/runs.h"
#include "app/plan/view.h"
#include "core/blend.h"
#include "core/decimal.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

double kilograms(Grams g) { return to_kilograms(g).value(); }

void add_words(std::string& words, const std::string& more) { words += (words.empty() ? "" : "; ") + more; }

std::vector<BlendPart> blend_of(PlanView& view, const std::vector<Given>& given) {
    std::vector<BlendPart> parts;
    for (const auto& g : given)
        if (const PlanFlour* flour = view.flour(g))
            parts.push_back({&flour->lot.certificate, to_kilograms(g.mass)});
    return parts;
}

/// How far a value is from the middle of its window (0) to its edge (1) and beyond; 0 on an open side.
double fill_of(const Window& window, double value) {
    const double half = window.half_width();
    const double middle = window.low && window.high ? (*window.low + *window.high) / 2
                          : window.low              ? *window.low + half
                                                    : *window.high - half;
    const bool is_harmless = (!window.high && value > middle) || (!window.low && value < middle);
    return is_harmless ? 0 : std::abs(value - middle) / half;
}

void judge_window(const Window& window, const std::vector<BlendPart>& parts, const std::string& whose,
                  PlannedRun& run) {
    const auto blended = blend_value(parts, window.property);
    const auto& kind = traits(window.property);
    if (!blended) {
        add_words(run.windows_words, fmt::format("{}{} not known of every lot", whose, kind.name));
        run.windows_fill = std::max(run.windows_fill, 1.0);
        return;
    }
    run.windows_fill = std::max(run.windows_fill, fill_of(window, blended->value));
    const double missing = window.low ? *window.low - blended->value : -1;
    const double over = window.high ? blended->value - *window.high : -1;
    // A blend planned to the very edge is inside.
    const double slack = std::pow(10.0, -kind.decimals) / 2;
    if (missing > slack || over > slack)
        add_words(run.windows_words, fmt::format("{}{} {} {} {}", whose, kind.name,
                                                 fixed(std::max(missing, over), kind.decimals), kind.unit,
                                                 missing > slack ? "below" : "above"));
}

/// How the need stands in its windows: the worst property decides. Where a batch takes one lot alone, each
/// lot is held against them by itself.
void judge_windows(PlanView& view, const Product& product, const NeedShown& need, PlannedRun& run) {
    if (need.given.empty())
        return;
    const Flour* flour = view.book.flour(flour_of(product, need.part));
    const std::string whose = product.second_flour && flour ? flour->name + ": " : "";
    for (const auto& window : windows_of(product, need.part)) {
        if (!product.one_lot_a_batch) {
            judge_window(window, blend_of(view, need.given), whose, run);
            continue;
        }
        for (const auto& g : need.given) {
            const PlanFlour* lot = view.flour(g);
            judge_window(window, blend_of(view, {g}), lot ? lot->lot.code + ": " : whose, run);
        }
    }
}

/// What the law leaves of the product's oxidant beside what the mill put in, and how much of it the need
/// takes.
struct Dosed {
    double ppm = 0;
    double missing_ppm = 0; ///< needed, but not permitted
    dough::Room room;
};

std::optional<Dosed> dose_of(PlanView& view, const Run& run, const Product& product, const NeedShown& need) {
    std::vector<dough::FlourPart> parts;
    for (const auto& g : need.given)
        if (const PlanFlour* flour = view.flour(g))
            parts.push_back({flour->lot.mill_additions, to_kilograms(g.mass)});
    const auto carried = dough::carried_over(parts);
    Dosed dosed;
    dosed.room =
        dough::room_for({view.book.limits, view.book.markets}, {product.market, product.food, run.day},
                        *product.oxidant, carried, product.house_maximum);
    const auto protein = protein_of(blend_of(view, need.given));
    const auto wanted =
        dough::oxidant_for(*product.oxidant, Maturity{counted_maturity(view, run, need.given)},
                           product.maturity_target, {protein, carried});
    if (!wanted)
        return {};
    dosed.ppm = std::min(wanted->dose.value(), dosed.room.room.value());
    dosed.missing_ppm = wanted->dose.value() - dosed.ppm;
    return dosed;
}

/// Maturity of the flours as the plan counts it, the oxidant that makes up the rest in mg per kg of all the
/// flour, and what the law leaves of it. A second flour without a target draws none.
void judge_strength(PlanView& view, const Run& run, const Product& product,
                    const std::vector<NeedShown>& needs, PlannedRun& planned) {
    planned.maturity_target = product.maturity_target.value();
    if (product.oxidant)
        planned.oxidant = name_of(*product.oxidant);
    double mass = 0;
    double matured = 0;
    double all = 0;
    for (const auto& need : needs) {
        double own = 0;
        for (const auto& g : need.given)
            own += kilograms(g.mass);
        all += own;
        if (own <= 0 || !has_target(view.book, product, need.part))
            continue;
        mass += own;
        matured += own * counted_maturity(view, run, need.given);
        const auto dosed = product.oxidant ? dose_of(view, run, product, need) : std::nullopt;
        if (!dosed)
            continue;
        planned.oxidant_ppm += dosed->ppm * own;
        planned.law_words = dosed->room.words;
        if (dosed->room.room.value() > 0)
            planned.law_fill = std::max(planned.law_fill, dosed->ppm / dosed->room.room.value());
        if (dosed->missing_ppm > 0.05)
            planned.reasons.push_back(fmt::format("{} mg/kg {} would be needed for full strength; {}",
                                                  fixed(dosed->ppm + dosed->missing_ppm, 1), planned.oxidant,
                                                  dosed->room.words));
    }
    planned.maturity = mass > 0 ? matured / mass : 0;
    planned.oxidant_ppm = all > 0 ? planned.oxidant_ppm / all : 0;
}

void add_lots(PlanView& view, const Run& run, const std::vector<Given>& given, PlannedRun& planned) {
    for (const auto& g : given) {
        const PlanFlour* flour = view.flour(g);
        PlannedLot lot;
        lot.lot = g.lot;
        lot.delivery = g.delivery;
        lot.code = flour ? flour->lot.code : "?";
        lot.kg = kilograms(g.mass);
        lot.is_locked = g.is_locked;
        lot.maturity = flour ? flour->estimate->maturity_at(0.5, run.day).value() : 0;
        lot.reason = g.reason;
        planned.lots.push_back(std::move(lot));
    }
}

} // namespace

PlannedRun planned_run(PlanView& view, const Run& run, const std::vector<Given>& given) {
    PlannedRun planned;
    const Product* product = view.book.product(run.product);
    planned.id = run.id;
    planned.code = run.code;
    planned.product = product ? product->name : "?";
    planned.market = product ? product->market : "";
    for (std::size_t i = 0; i < view.book.lines.size(); ++i)
        if (view.book.lines[i].id == run.line)
            planned.line = static_cast<int>(i);
    planned.day = run.day;
    planned.sequence = run.sequence;
    planned.need_kg = kilograms(run.flour);
    planned.is_past = run.day < view.today;
    planned.is_frozen = !planned.is_past && is_frozen(view.book, run, view.today);
    add_lots(view, run, given, planned);
    if (!product) {
        planned.short_kg = planned.need_kg;
        return planned;
    }
    const auto needs = needs_of(view, run, *product, given);
    for (const auto& need : needs) {
        planned.short_kg += kilograms(need.missing);
        judge_windows(view, *product, need, planned);
    }
    judge_strength(view, run, *product, needs, planned);
    return planned;
}

} // namespace mellowbin::app
