#include "app/plan/orders.h"

#include "app/plan/expected.h"
#include "app/plan/lots.h"
#include "app/plan/runs.h"
#include "app/plan/units.h"
#include "core/decimal.h"
#include "dough/oxidant.h"
#include "planning/order_by.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace mellowbin::app {
namespace {

constexpr Days longest_wait{730}; // days studied

double kilograms(Grams g) { return to_kilograms(g).value(); }

/// Flour of this kind as the plan would count on it, if it were milled and came on that day.
PlanFlour coming_on(PlanView& view, FlourId flour, Day arrives) {
    ExpectedDelivery delivery;
    for (const auto& lot : view.book.lots) // the newest lot's mill, as what is known of the flour
        if (lot.flour == flour && lot.state != LotState::rejected)
            delivery.mill = lot.mill;
    delivery.flour = flour;
    delivery.arrives = arrives;
    delivery.milled = arrives;
    return expectation_of(view.book, view.estimates, delivery, std::min(view.today, arrives)).flour;
}

double maturity_on(PlanView& view, const PlanFlour& flour, Day day) {
    return flour.estimate->maturity_at(1 - view.estimates.confidence(), day).value();
}

/// A run's need that is short.
struct ShortNeed {
    const Run* run;
    const Product* product;
    FlourPart part;
    Grams missing;
    Maturity target;
};

std::vector<ShortNeed> short_needs(PlanView& view, const std::vector<RunId>& short_runs,
                                   const GivenByRun& given) {
    std::vector<ShortNeed> all;
    for (const RunId id : short_runs) {
        const Run* run = view.book.run(id);
        const Product* product = run ? view.book.product(run->product) : nullptr;
        if (!product)
            continue;
        const auto at = given.find(run->id);
        for (const auto& need :
             needs_of(view, *run, *product, at == given.end() ? std::vector<Given>{} : at->second))
            if (need.missing > Grams{500})
                all.push_back({run, product, need.part, need.missing,
                               has_target(view.book, *product, need.part)
                                   ? as_baked(*product, *run).maturity_target
                                   : Maturity{0}});
    }
    return all;
}

/// What it costs a run if its flour comes on that day: the oxidant that makes up for the missing time, in mg
/// per kg and g for the missing flour, as far as the law leaves room.
struct Cost {
    bool is_in_time = true; ///< it has come and been released by the run's day
    double maturity = 1;
    double ppm = 0, grams = 0;
    double beyond_ppm = 0; ///< needed, not permitted
};

/// Whether the product's oxidant has a dose by maturity; of another only bakes say what it does.
bool makes_up(const Product& product) {
    return product.oxidant && dough::is_dosed_by_maturity(*product.oxidant);
}

Cost cost_of(PlanView& view, const ShortNeed& need, const PlanFlour& flour) {
    Cost cost;
    cost.is_in_time = *flour.usable_from <= need.run->day;
    cost.maturity = maturity_on(view, flour, need.run->day);
    if (cost.maturity >= need.target.value() || !makes_up(*need.product))
        return cost;
    const auto protein = protein_of(flour.lot.certificate);
    const auto& carried = flour.lot.mill_additions;
    const auto dose =
        dough::oxidant_for(*need.product->oxidant, Maturity{cost.maturity}, need.target, {protein, carried});
    if (!dose)
        return cost;
    const auto room = dough::room_for({view.book.limits, view.book.markets},
                                      {need.product->market, need.product->food, need.run->day},
                                      *need.product->oxidant, carried, need.product->house_maximum);
    cost.ppm = std::min(dose->dose.value(), room.room.value());
    cost.beyond_ppm = dose->dose.value() - cost.ppm;
    cost.grams = cost.ppm * kilograms(need.missing) / 1000;
    return cost;
}

/// "12 mg/kg ascorbic acid, 24 g in all"
std::string cost_in_words(PlanView& view, const std::vector<ShortNeed>& needs, const std::vector<int>& which,
                          Day arrives) {
    const FlourId flour_id = flour_of(*needs[static_cast<std::size_t>(which.front())].product,
                                      needs[static_cast<std::size_t>(which.front())].part);
    const PlanFlour flour = coming_on(view, flour_id, arrives);
    int late = 0;
    int to_ferment = 0;
    double least = 1;
    double ppm = 0;
    double grams = 0;
    std::string substance;
    for (const int i : which) {
        const ShortNeed& need = needs[static_cast<std::size_t>(i)];
        const Cost cost = cost_of(view, need, flour);
        late += cost.is_in_time ? 0 : 1;
        if (!cost.is_in_time)
            continue;
        least = std::min(least, cost.maturity);
        const bool lacks =
            makes_up(*need.product) ? cost.beyond_ppm > 0.05 : cost.maturity < need.target.value() - 0.005;
        to_ferment += lacks ? 1 : 0;
        ppm = std::max(ppm, cost.ppm);
        grams += cost.grams;
        if (makes_up(*need.product))
            substance = name_of(*need.product->oxidant);
    }
    std::string words;
    const auto add = [&](const std::string& more) { words += (words.empty() ? "" : "; ") + more; };
    if (late > 0)
        add(fmt::format("{} of {} runs {} not served at all", late, which.size(), late == 1 ? "is" : "are"));
    if (ppm > 0.05)
        add(fmt::format("{} up to {} mg/kg, {} g in all", substance, fixed(ppm, 1), fixed(grams, 1)));
    if (to_ferment > 0)
        add(fmt::format(
            "{} {} strength that oxidant may not make up (flour {} % mature): a longer fermentation "
            "or a later day",
            to_ferment == 1 ? "1 run" : fmt::format("{} runs", to_ferment),
            to_ferment == 1 ? "lacks" : "lack", fixed(least * 100, 0)));
    return words.empty() ? "nothing: it is still mature in time" : words;
}

std::string runs_in_words(const std::vector<ShortNeed>& needs, const std::vector<int>& which) {
    const Run& first = *needs[static_cast<std::size_t>(which.front())].run;
    return which.size() == 1 ? fmt::format("run {} on {}", first.code, short_day(first.day))
                             : fmt::format("{} runs from {}", which.size(), short_day(first.day));
}

std::string if_later(PlanView& view, const std::vector<ShortNeed>& needs, const planning::FlourOrder& order,
                     std::optional<Day> by) {
    if (!by)
        return fmt::format("Too late to mature. If it came today: {}",
                           cost_in_words(view, needs, order.missing, view.today));
    return fmt::format("A week later, {}: {}", short_day(*by + Days{7}),
                       cost_in_words(view, needs, order.missing, *by + Days{7}));
}

std::optional<Day> latest_arrival(PlanView& view, const ShortNeed& need) {
    return view.latest_arrival(flour_of(*need.product, need.part), need.target, need.run->day);
}

std::optional<Day> search_arrival(PlanView& view, FlourId flour, Maturity target, Day run_day) {
    const auto is_ready = [&](Day arrives) {
        const PlanFlour coming = coming_on(view, flour, arrives);
        return *coming.usable_from <= run_day && maturity_on(view, coming, run_day) >= target.value();
    };
    if (is_ready(run_day))
        return run_day;
    Day early = run_day - longest_wait;
    Day late = run_day;
    if (!is_ready(early))
        return {};
    while (late - early > Days{1}) {
        const Day middle = early + (late - early) / 2;
        (is_ready(middle) ? early : late) = middle;
    }
    return early;
}

std::string cure_of(PlanView& view, const ShortNeed& need, std::optional<Day> by) {
    const int days = by ? static_cast<int>((need.run->day - *by).count()) : 0;
    if (by && *by >= view.today)
        return fmt::format("Order it to arrive by {}: {} days until it is released and mature, an estimate.",
                           short_day(*by), days);
    const auto wait = by ? fmt::format("New flour needs {} days until it is mature (an estimate)", days)
                         : std::string("New flour does not mature so far within the time studied");
    return fmt::format("{}, too late: take an older lot, or {}.", wait,
                       makes_up(*need.product) ? "oxidant as the law allows" : "ferment longer");
}

} // namespace

std::optional<Day> PlanView::latest_arrival(FlourId flour, Maturity target, Day run_day) {
    const auto [at, is_new] = arrivals_.try_emplace({flour, target.value(), run_day});
    if (is_new)
        at->second = search_arrival(*this, flour, target, run_day);
    return at->second;
}

std::vector<OrderAdvice> orders_for(PlanView& view, const std::vector<RunId>& short_runs,
                                    const GivenByRun& given) {
    const auto needs = short_needs(view, short_runs, given);
    std::vector<planning::MissingFlour> missing;
    for (const auto& need : needs) {
        const auto by = latest_arrival(view, need);
        planning::MissingFlour flour;
        flour.kind = static_cast<int>(flour_of(*need.product, need.part).number());
        flour.day = static_cast<double>((need.run->day - view.today).count());
        flour.tonnes = tonnes(need.missing);
        if (by)
            flour.arrive_by = static_cast<double>((*by - view.today).count());
        missing.push_back(flour);
    }
    const auto weekday = static_cast<int>(date::weekday(view.today).iso_encoding()) - 1;
    std::vector<OrderAdvice> advice;
    for (const auto& order : planning::orders_for(missing, 0, weekday)) {
        const auto& first = needs[static_cast<std::size_t>(order.missing.front())];
        const Flour* flour = view.book.flour(flour_of(*first.product, first.part));
        OrderAdvice row;
        row.flour = flour ? flour->name : "?";
        row.kg = std::ceil(order.tonnes * 1000 - 1e-6);
        if (order.arrive_by)
            row.order_by = view.today + Days{static_cast<int>(std::floor(*order.arrive_by))};
        row.for_runs = runs_in_words(needs, order.missing);
        row.if_later = if_later(view, needs, order, row.order_by);
        advice.push_back(std::move(row));
    }
    return advice;
}

std::vector<std::string> shortages_of(PlanView& view, const std::vector<RunId>& short_runs,
                                      const GivenByRun& given) {
    std::map<FlourId, double> waiting; // kg in quarantine, held, or of a concession that is over
    for (const auto& lot : view.book.lots)
        if (lot.state == LotState::awaiting_judgement || lot.state == LotState::held ||
            stands_on_hold(lot, view.today))
            waiting[lot.flour] += kilograms(view.book.stock.total(lot.id));
    std::vector<std::string> all;
    for (const auto& need : short_needs(view, short_runs, given)) {
        const FlourId flour_id = flour_of(*need.product, need.part);
        const Flour* flour = view.book.flour(flour_id);
        std::string words =
            fmt::format("{} kg short: {}{}, {} ({}). ", fixed(kilograms(need.missing), 0), need.product->name,
                        need.product->second_flour && flour ? " (" + flour->name + ")" : "",
                        short_day(need.run->day), need.run->code);
        if (const double kg = waiting[flour_id]; kg > 0)
            words += fmt::format("{} kg of its flour wait for quality's word. ", fixed(kg, 0));
        all.push_back(words + cure_of(view, need, latest_arrival(view, need)));
    }
    return all;
}

} // namespace mellowbin::app
