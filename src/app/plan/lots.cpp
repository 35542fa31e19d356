#include "app/plan/lots.h"

#include "app/plan/expected.h"
#include "app/plan/freeze.h"
#include "app/plan/reserved.h"
#include "app/plan/silos.h"
#include "app/plan/units.h"
#include "core/decimal.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

constexpr double beyond_all_days = 36500;

/// A figure that is not known stands as 0: the lot is banned from every run whose product asks for it
/// (missing_figure), and where nobody asks, the window is open on both sides.
double planned_value(const Lot& lot, Property property) {
    const auto value = comparable_at_14(lot.certificate, property);
    if (!value)
        return 0;
    return property == Property::falling_number ? liquefaction(*value) : *value;
}

/// Runs outside the problem whose claims on flour stand.
bool claims(const Book& book, RunId id, PlanSpan span) {
    const Run* run = book.run(id);
    return run && run->day >= span.today && !span.holds(run->day);
}

/// Grams that runs outside the problem have a claim on.
Grams claimed_elsewhere(const Book& book, const PlanFlour& flour, PlanSpan span) {
    Grams claimed;
    if (flour.delivery.is_known()) {
        for (const auto& p : book.promises)
            if (p.delivery == flour.delivery && claims(book, p.run, span))
                claimed += p.mass;
        return claimed;
    }
    for (const auto& a : book.assignments)
        if (a.lot == flour.lot.id && claims(book, a.run, span))
            claimed += std::max(Grams{0}, a.mass - book.used_for(a.run, a.lot));
    return claimed;
}

/// mg/kg of what is dosed by maturity, which the mill put in already; nothing where no product of this plant
/// doses it.
double counted_mill_ppm(const Book& book, const Lot& lot) {
    double ppm = 0;
    for (const auto& addition : lot.mill_additions) {
        const bool is_dosed = std::any_of(book.products.begin(), book.products.end(),
                                          [&](const Product& p) { return p.oxidant == addition.substance; });
        if (is_dosed && dough::is_dosed_by_maturity(addition.substance))
            ppm += addition.dose.value();
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

/// What of the other lots in a silo the lot does not come without; nothing where some of it comes now.
std::optional<Buried> buried_in(const Book& book, LotId lot, const Place& silo) {
    const auto facts = book.silos.find(silo.id);
    const auto& layers = book.stock.layers(silo.id);
    if (facts == book.silos.end() || facts->second.zone.mass != Grams{0}) {
        Buried mixed{silo.name, {}, true};
        std::copy_if(layers.begin(), layers.end(), std::back_inserter(mixed.below),
                     [&](const Layer& layer) { return layer.lot != lot; });
        return mixed;
    }
    const auto own =
        std::find_if(layers.begin(), layers.end(), [&](const Layer& layer) { return layer.lot == lot; });
    if (own == layers.begin() || own == layers.end())
        return {};
    return Buried{silo.name, {layers.begin(), own}, false};
}

/// The same of every silo that holds the lot; nothing where it lies elsewhere, too.
std::vector<Buried> buried(const Book& book, LotId lot) {
    std::vector<Buried> all;
    for (const auto& [place_id, mass] : book.stock.places_of(lot)) {
        const Place* place = book.place(place_id);
        if (!place || place->kind != PlaceKind::silo)
            return {};
        auto in_silo = buried_in(book, lot, *place);
        if (!in_silo)
            return {};
        all.push_back(*std::move(in_silo));
    }
    return all;
}

bool is_locked_in(const Book& book, LotId lot, PlanSpan span) {
    return std::any_of(book.assignments.begin(), book.assignments.end(), [&](const Assignment& a) {
        const Run* run = a.lot == lot && a.is_locked ? book.run(a.run) : nullptr;
        return run && run->day >= span.today && span.holds(run->day) && !is_frozen(book, *run, span.today);
    });
}

/// Every flour of a problem goes by a name of its own: two mills may use one number, and what a silo gives is
/// told apart from the same lot elsewhere, or further up.
void tell_apart(const Book& book, std::vector<PlanFlour>& flours) {
    std::map<std::string, int> elsewhere;
    for (const auto& flour : flours)
        elsewhere[flour.lot.code] += flour.silo.is_known() ? 0 : 1;
    std::map<std::string, int> nth;
    for (auto& flour : flours) {
        const Mill* mill = book.mill(flour.lot.mill);
        const int others = elsewhere[flour.lot.code];
        if (flour.silo.is_known()) {
            if (flour.holds.size() == 1 && others > 0)
                flour.lot.code += " in " + book.name(flour.silo);
            if (const int before = nth[flour.lot.code]++; before > 0)
                flour.lot.code += fmt::format(" ({})", before + 1);
        } else if (others > 1) {
            flour.lot.code = flour.delivery.is_known()
                                 ? fmt::format("delivery {}", flour.lot.code)
                                 : fmt::format("{}/{}", mill ? mill->name : "?", flour.lot.code);
        }
    }
}

Grams lying_in_silos(const Book& book, LotId lot) {
    Grams mass;
    for (const auto& [silo, facts] : book.silos)
        mass += book.stock.at(lot, silo);
    return mass;
}

/// The largest least share that a run of the span asks for: less than that no run draws by itself.
Grams least_portion(const Book& book, PlanSpan span) {
    double grams = 1;
    for (const auto& run : book.runs)
        if (const Product* product = book.product(run.product); product && span.holds(run.day))
            grams = std::max(grams, product->least_share * static_cast<double>(run.flour.count()));
    return Grams{std::llround(grams)};
}

std::string name_of(const Book& book, const SiloPortion& portion) {
    const auto code = [&](LotId id) {
        const Lot* lot = book.lot(id);
        return lot ? lot->code : "?";
    };
    if (portion.holds.size() == 1)
        return code(portion.holds.front().lot);
    std::string words;
    for (const auto& part : portion.holds) {
        const double share = to_kilograms(part.mass) / to_kilograms(portion.mass) * 100;
        words += fmt::format("{}{} {:.0f} %", words.empty() ? "" : ", ", code(part.lot), share);
    }
    return fmt::format("{} ({})", book.name(portion.silo), words);
}

/// A portion as flour to plan with. Of several kinds of flour it is none that a product asks for.
PlanFlour flour_of_portion(const Book& book, const Estimates& estimates, const SiloPortion& portion) {
    PlanFlour flour;
    for (const auto& part : portion.holds) {
        flour.holds.push_back(flour_of_lot(book, estimates, part.lot));
        flour.holds.back().buried.clear();
        flour.shares.push_back(to_kilograms(part.mass) / to_kilograms(portion.mass));
    }
    const auto& first = flour.holds.front();
    flour.lot = first.lot;
    flour.lot.id = {};
    flour.lot.code = name_of(book, portion);
    for (const auto& part : flour.holds) {
        if (part.lot.flour != first.lot.flour)
            flour.lot.flour = {};
        if (part.past_best && (!flour.past_best || *part.past_best < *flour.past_best))
            flour.past_best = part.past_best;
    }
    if (!portion.below.empty())
        flour.buried = {{book.name(portion.silo), portion.below, false}};
    flour.named = portion.named;
    flour.silo = portion.silo;
    flour.free = portion.mass;
    return flour;
}

/// What is claimed of lots in silos goes from what comes last.
void take_claims(std::vector<PlanFlour>& portions, std::map<LotId, Grams>& claimed) {
    for (auto portion = portions.rbegin(); portion != portions.rend(); ++portion)
        for (auto& name : portion->named) {
            Grams& claim = claimed[name.lot];
            const Grams taken = std::min(claim, name.mass);
            claim = claim - taken;
            name.mass = name.mass - taken;
            portion->free = portion->free - taken;
        }
    std::erase_if(portions, [](const PlanFlour& portion) { return portion.free <= Grams{0}; });
}

void add_silos(const Book& book, const Estimates& estimates, PlanSpan span, std::map<LotId, Grams>& claimed,
               FloursToPlan& all) {
    const Grams least = least_portion(book, span);
    for (auto& [silo, layers] : silo_layers(book)) {
        std::vector<PlanFlour> portions;
        for (const auto& portion : portions_of(book, silo, std::move(layers), least))
            portions.push_back(flour_of_portion(book, estimates, portion));
        take_claims(portions, claimed);
        std::vector<int> chain;
        for (auto& portion : portions) {
            chain.push_back(static_cast<int>(all.flours.size()));
            all.flours.push_back(std::move(portion));
        }
        if (chain.size() > 1)
            all.chains.push_back(std::move(chain));
    }
}

} // namespace

PlanFlour flour_of_lot(const Book& book, const Estimates& estimates, LotId lot) {
    const std::shared_ptr<const aging::Estimate> kept_by_estimates(&estimates.of(lot),
                                                                   [](const aging::Estimate*) {});
    return {*book.lot(lot),   {}, kept_by_estimates, estimates.outlook_today(lot).turns.past_best_from, {},
            buried(book, lot)};
}

double maturity_points(const PlanFlour& flour, double confidence, Day day) {
    double mixed = 0;
    for (std::size_t i = 0; i < flour.holds.size(); ++i)
        mixed += flour.shares[i] * maturity_points(flour.holds[i], confidence, day);
    if (!flour.holds.empty())
        return mixed;
    const Lot& lot = flour.lot;
    const Maturity natural = flour.estimate->maturity_at(1 - confidence, day);
    if (lot.mill_additions.empty())
        return natural.value() * 100;
    return dough::effect_of(natural, lot.mill_additions, protein_of(lot.certificate)).maturity.value() * 100;
}

double probability_of(const PlanFlour& flour, Maturity at_least, Day day) {
    if (flour.holds.empty())
        return flour.estimate->probability_of(at_least, day);
    double mixed = 0;
    for (std::size_t i = 0; i < flour.holds.size(); ++i)
        mixed += flour.shares[i] * probability_of(flour.holds[i], at_least, day);
    return mixed;
}

FloursToPlan flours_to_plan(const Book& book, const Estimates& estimates, PlanSpan span) {
    FloursToPlan all;
    std::map<LotId, Grams> claimed_in_silos;
    for (const auto& lot : book.lots) {
        const Grams there = book.stock.total(lot.id);
        const Grams in_silos = lying_in_silos(book, lot.id);
        const bool is_gone = lot.state == LotState::rejected || there <= Grams{0};
        // A lock on flour that is gone must be seen, so that it is refused and not passed over.
        if (is_gone && !is_locked_in(book, lot.id, span))
            continue;
        auto flour = flour_of_lot(book, estimates, lot.id);
        const Grams claimed = claimed_elsewhere(book, flour, span) + kept_back(book, lot.id);
        flour.free = std::max(Grams{0}, there - in_silos - claimed);
        claimed_in_silos[lot.id] = std::max(Grams{0}, claimed - (there - in_silos));
        if (is_gone || there > in_silos)
            all.flours.push_back(std::move(flour));
    }
    add_silos(book, estimates, span, claimed_in_silos, all);
    for (const auto& delivery : book.expected) {
        if (delivery.has_come)
            continue;
        auto flour = expectation_of(book, estimates, delivery, span.today).flour;
        flour.free = std::max(Grams{0}, flour.lot.received - claimed_elsewhere(book, flour, span));
        all.flours.push_back(std::move(flour));
    }
    tell_apart(book, all.flours);
    return all;
}

namespace {

/// What is spoilt or forbidden of a part is so of all of it; the rest is their mean, by mass.
planning::Lot planned_mixture(const Book& book, const PlanFlour& flour, PlanSpan span) {
    planning::Lot planned;
    for (std::size_t i = 0; i < flour.holds.size(); ++i) {
        const auto part = planned_lot(book, flour.holds[i], span);
        const double share = flour.shares[i];
        planned.best_before_day =
            i == 0 ? part.best_before_day : std::min(planned.best_before_day, part.best_before_day);
        planned.use_by_day = i == 0 ? part.use_by_day : std::min(planned.use_by_day, part.use_by_day);
        planned.cost_per_t += share * part.cost_per_t;
        planned.mill_oxidant_ppm += share * part.mill_oxidant_ppm;
        planned.values.resize(part.values.size());
        for (std::size_t k = 0; k < part.values.size(); ++k)
            planned.values[k] += share * part.values[k];
    }
    planned.id = flour.lot.code;
    planned.stock_t = tonnes(flour.free);
    return planned;
}

} // namespace

planning::Lot planned_lot(const Book& book, const PlanFlour& flour, PlanSpan span) {
    if (!flour.holds.empty())
        return planned_mixture(book, flour, span);
    const Lot& lot = flour.lot;
    planning::Lot planned;
    planned.id = lot.code;
    planned.stock_t = tonnes(flour.free);
    planned.best_before_day = flour.past_best ? day_of(*flour.past_best, span) : beyond_all_days;
    // What the supplier printed is the last day, or what quality extended it to; without it the window's end
    // by the age clock and as long again as it took from "use first". A concession that holds ends sooner.
    auto last = last_day(lot);
    if (lot.concession && lot.concession->until >= span.today)
        last = std::min(last.value_or(lot.concession->until), lot.concession->until);
    planned.use_by_day = last ? day_of(*last, span) : planned.best_before_day + 60;
    if (planned.best_before_day > planned.use_by_day)
        planned.best_before_day = planned.use_by_day;
    planned.cost_per_t = price_of(book, lot);
    planned.mill_oxidant_ppm = counted_mill_ppm(book, lot);
    for (const Property property : planned_properties)
        planned.values.push_back(planned_value(lot, property));
    return planned;
}

} // namespace mellowbin::app
