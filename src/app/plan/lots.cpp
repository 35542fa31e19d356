#include "app/plan/lots.h"

#include "app/plan/expected.h"
#include "app/plan/freeze.h"
#include "app/plan/reserved.h"
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

/// What lies below the lot in each silo that holds it; nothing where some of it can be drawn now.
std::vector<Buried> buried(const Book& book, LotId lot) {
    std::vector<Buried> all;
    for (const auto& [place_id, mass] : book.stock.places_of(lot)) {
        const Place* place = book.place(place_id);
        if (!place || place->kind != PlaceKind::silo)
            return {};
        const auto& layers = book.stock.layers(place_id);
        const auto own =
            std::find_if(layers.begin(), layers.end(), [&](const Layer& layer) { return layer.lot == lot; });
        if (own == layers.begin() || own == layers.end())
            return {};
        all.push_back({place->name, {layers.begin(), own}});
    }
    return all;
}

bool is_locked_in(const Book& book, LotId lot, PlanSpan span) {
    return std::any_of(book.assignments.begin(), book.assignments.end(), [&](const Assignment& a) {
        const Run* run = a.lot == lot && a.is_locked ? book.run(a.run) : nullptr;
        return run && run->day >= span.today && span.holds(run->day) && !is_frozen(book, *run, span.today);
    });
}

/// Every lot and delivery of a problem goes by a name of its own: two mills may use one number.
void tell_apart(const Book& book, std::vector<PlanFlour>& flours) {
    std::map<std::string, int> count;
    for (const auto& flour : flours)
        ++count[flour.lot.code];
    for (auto& flour : flours) {
        if (count[flour.lot.code] < 2)
            continue;
        const Mill* mill = book.mill(flour.lot.mill);
        flour.lot.code = flour.delivery.is_known()
                             ? fmt::format("delivery {}", flour.lot.code)
                             : fmt::format("{}/{}", mill ? mill->name : "?", flour.lot.code);
    }
}

} // namespace

PlanFlour flour_of_lot(const Book& book, const Estimates& estimates, LotId lot) {
    const std::shared_ptr<const aging::Estimate> kept_by_estimates(&estimates.of(lot),
                                                                   [](const aging::Estimate*) {});
    return {*book.lot(lot),   {}, kept_by_estimates, estimates.outlook_today(lot).turns.past_best_from, {},
            buried(book, lot)};
}

std::vector<PlanFlour> flours_to_plan(const Book& book, const Estimates& estimates, PlanSpan span) {
    std::vector<PlanFlour> flours;
    for (const auto& lot : book.lots) {
        const bool is_gone = lot.state == LotState::rejected || book.stock.total(lot.id) <= Grams{0};
        // A lock on flour that is gone must be seen, so that it is refused and not passed over.
        if (is_gone && !is_locked_in(book, lot.id, span))
            continue;
        flours.push_back(flour_of_lot(book, estimates, lot.id));
    }
    for (const auto& delivery : book.expected)
        if (!delivery.has_come)
            flours.push_back(expectation_of(book, estimates, delivery, span.today).flour);
    tell_apart(book, flours);
    return flours;
}

planning::Lot planned_lot(const Book& book, const PlanFlour& flour, PlanSpan span) {
    const Lot& lot = flour.lot;
    const Grams there = flour.delivery.is_known() ? lot.received : book.stock.total(lot.id);
    const Grams spoken_for = claimed_elsewhere(book, flour, span) + kept_back(book, lot.id);
    planning::Lot planned;
    planned.id = lot.code;
    planned.stock_t = std::max(0.0, tonnes(there - spoken_for));
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
