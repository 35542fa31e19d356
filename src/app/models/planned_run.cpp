#include "app/models/planned_run.h"

#include "app/book/station.h"
#include "app/models/aging_words.h"
#include "app/models/dose_words.h"
#include "app/models/fermentation_words.h"
#include "app/models/run_card.h"
#include "app/plan/freeze.h"
#include "app/plan/given.h"
#include "app/plan/lots.h"
#include "app/plan/problem.h"
#include "app/plan/runs.h"
#include "app/plan/view.h"
#include "core/blend.h"
#include "core/decimal.h"
#include "dough/keeping_ruling.h"

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

/// Maturity of the flours as the plan counts it. A second flour without a target draws none.
void judge_strength(PlanView& view, const Run& run, const Product& product,
                    const std::vector<NeedShown>& needs, PlannedRun& planned) {
    planned.maturity_target = as_baked(product, run).maturity_target.value();
    double mass = 0;
    double matured = 0;
    for (const auto& need : needs) {
        if (!has_target(view.book, product, need.part))
            continue;
        double own = 0;
        for (const auto& g : need.given)
            own += kilograms(g.mass);
        mass += own;
        matured += own * counted_maturity(view, run, need.given);
    }
    planned.maturity = mass > 0 ? matured / mass : 0;
}

std::string none_words(const dough::CardOxidant& dose) {
    const auto name = name_of(dose.substance);
    if (dough::is_withheld(dose))
        return fmt::format("{} is withheld: {}", name, dose.room.words);
    if (dose.exact.value() > 0)
        return fmt::format("{}: none goes in, {} mg/kg is less than can be measured", name,
                           dose_words(dose.exact));
    if (dose.wanted.value() > 0)
        return fmt::format("{}: none goes in; {}", name, dose.room.words);
    return dose.baked ? fmt::format("{} is not needed: by its bakes none is best", name)
                      : fmt::format("{} is not needed", name);
}

void show_dose(const dough::CardOxidant& dose, PlannedRun& planned) {
    planned.oxidant_ppm = dose.resulting.value();
    planned.oxidant_words = planned.oxidant_ppm > 0 ? fmt::format("{} {} mg/kg flour", planned.oxidant,
                                                                  dose_words(dose.resulting))
                                                    : none_words(dose);
    planned.law_words = dose.room.words;
    if (!planned.is_past && dough::is_withheld(dose))
        planned.dose_withheld = planned.oxidant_words;
    if (dose.room.room.value() > 0)
        planned.law_fill = dose.resulting / dose.room.room;
    constexpr double worth_telling = 0.05; // mg/kg
    if ((dose.wanted - dose.exact).value() > worth_telling)
        planned.reasons.push_back(
            fmt::format("{} mg/kg {} would be {}; {}", dose_words(dose.wanted), planned.oxidant,
                        dose.baked ? "best by bakes" : "needed for full strength", dose.room.words));
}

/// Of a run that is mixed to the end: the mean by flour over its batches.
void show_given(const Book& book, const Run& run, PlannedRun& planned) {
    double grams = 0;
    double flour = 0;
    for (const auto* batch : book.batches_of(run.id)) {
        if (batch->is_countered)
            continue;
        for (const auto& part : batch->flour) {
            flour += kilograms(part.mass);
            grams += batch->oxidant ? dose_grams(batch->dose, to_kilograms(part.mass)) : 0;
        }
    }
    const OxidantPpm mean{flour > 0 ? grams * 1000 / flour : 0};
    planned.oxidant_ppm = mean.value();
    planned.oxidant_words = grams > 0 ? fmt::format("{} {} mg/kg went in", planned.oxidant, dose_words(mean))
                                      : fmt::format("{}: none went in", planned.oxidant);
}

/// As the card of the run's next batch would have it.
void dose(const Station& s, PlanView& view, const Run& run, const Product& product,
          const std::vector<Given>& given, PlannedRun& planned) {
    if (!product.oxidant)
        return;
    planned.oxidant = name_of(*product.oxidant);
    if (view.book.batches_mixed(run) >= run.batches)
        return show_given(view.book, run, planned);
    const Line* line = view.book.line(run.line);
    if (!line || given.empty()) {
        planned.oxidant_words = fmt::format("{}: not known without flour", planned.oxidant);
        return;
    }
    const auto card = planned_dose(s, view, run, product, *line, given);
    const auto refused = [&](const Refusals& refusals) {
        planned.oxidant_words = fmt::format("{}: not known. {}", planned.oxidant, in_words(refusals.front()));
    };
    if (!card)
        refused(card.refusals());
    else if (!*card->oxidant)
        refused(card->oxidant->refusals());
    else
        show_dose(**card->oxidant, planned);
}

void judge_keeping(const Book& book, const Product& product, PlannedRun& planned) {
    const auto ruling = dough::rule_on_keeping(product, book.propionates, book.markets);
    if (!ruling)
        return;
    planned.keeping_withheld = ruling->is_withheld();
    planned.keeping_words = fmt::format("{}{}: {}", name_of(product.preservative),
                                        planned.keeping_withheld ? " is withheld" : "", ruling->words());
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
        if (flour) {
            lot.maturity = flour->estimate->maturity_at(0.5, run.day).value();
            lot.lowest = flour->estimate->maturity_at(0.1, run.day).value();
            lot.highest = flour->estimate->maturity_at(0.9, run.day).value();
        }
        if (flour && g.lot.is_known())
            lot.readiness = shown(view.estimates.outlook_today(g.lot).turns.state_on(run.day));
        lot.reason = g.reason;
        planned.lots.push_back(std::move(lot));
    }
}

} // namespace

PlannedRun planned_run(const Station& s, PlanView& view, const Run& run, const std::vector<Given>& given) {
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
    planned.longer_fermentation_minutes = run.longer_fermentation_minutes;
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
    if (run.longer_fermentation_minutes > 0)
        planned.fermentation_words = fermentation_and_why(as_baked(*product, run).fermentation_minutes,
                                                          run.longer_fermentation_minutes);
    dose(s, view, run, *product, given, planned);
    if (!planned.is_past) // by the law of today
        judge_keeping(view.book, *product, planned);
    return planned;
}

} // namespace mellowbin::app
