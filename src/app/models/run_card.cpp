#include "app/models/run_card.h"

#include "app/book/settings.h"
#include "app/models/dose_maturity.h"
#include "app/models/run_bags.h"
#include "app/plan/problem.h"
#include "app/plan/runs.h"
#include "app/plan/silos.h"
#include "app/plan/view.h"
#include "core/decimal.h"
#include "dough/site_record.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace mellowbin::app {
namespace {

/// Whether the product's target of maturity is about this flour.
bool counts_for_strength(const Book& book, const Product& product, const Lot& lot) {
    const auto part = part_of(product, lot.flour);
    return !part || has_target(book, product, *part);
}

/// The newest earlier lot of the same mill and flour whose absorption is known.
const Lot* last_lot_of_mill(const Book& book, const Lot& lot) {
    const Lot* last = nullptr;
    for (const auto& other : book.lots) {
        if (other.mill != lot.mill || other.flour != lot.flour || other.id == lot.id ||
            other.delivered_on > lot.delivered_on || !other.certificate.find(Property::absorption))
            continue;
        if (!last || other.delivered_on >= last->delivered_on)
            last = &other;
    }
    return last;
}

/// Where the certificate has no absorption: what composition says beside the mill's last lot.
std::optional<dough::AbsorptionStart> start_of(const Book& book, const Lot& lot) {
    if (lot.certificate.find(Property::absorption))
        return {};
    const Lot* last = last_lot_of_mill(book, lot);
    const auto start =
        dough::absorption_start(lot.certificate, last ? &last->certificate : nullptr, last ? last->code : "");
    return start ? std::optional{*start} : std::nullopt;
}

/// The lot with the moisture it will have on the day, by the drift in its places, else as it was measured
/// last; adds to the words where that is worth telling.
Lot as_on(const Station& s, const Lot& lot, Day day, std::string& words) {
    constexpr double worth_telling = 0.05; // points of moisture
    Lot then = lot;
    const auto before = lot.certificate.moisture();
    const auto measured = s.estimates.measured_moisture(lot.id);
    if (!measured || !before)
        return then;
    const auto drifted = s.estimates.moisture_on(lot.id, day);
    const auto moisture = drifted.value_or(measured->moisture);
    if (moisture == *before)
        return then;
    then.certificate = at_moisture(lot.certificate, moisture);
    if (std::abs(moisture.value() - before->value()) > worth_telling)
        words +=
            fmt::format("; {} at {} % moisture on the day, {} ({} % on its certificate)", lot.code,
                        fixed(moisture.value(), 1), drifted ? "by drift in its place" : "as measured last",
                        fixed(before->value(), 1));
    return then;
}

/// Of a lot whose moisture was measured before the day.
std::optional<dough::DriftedMoisture> drift_of(const Station& s, LotId lot, Day day) {
    const auto measured = s.estimates.measured_moisture(lot);
    const double sd = s.estimates.moisture_doubt(lot, day);
    if (!measured || sd <= 0)
        return {};
    return dough::DriftedMoisture{measured->moisture, sd};
}

const Retest* newest_retest(const Book& book, LotId lot) {
    const Retest* newest = nullptr;
    for (const Retest* retest : book.retests_of(lot))
        if (!retest->is_withdrawn && (!newest || retest->taken_on >= newest->taken_on))
            newest = retest;
    return newest;
}

/// Free glutathione of the fresh flour, nmol/g at 14 % moisture: the mill's figure, else what the first
/// retest comes to at the milling.
std::optional<double> fresh_glutathione(const Book& book, const aging::Estimate& estimate, const Lot& lot) {
    if (const auto by_mill = comparable_at_14(lot.certificate, Property::glutathione))
        return by_mill;
    const Retest* first = nullptr;
    for (const Retest* retest : book.retests_of(lot.id))
        if (!retest->is_withdrawn && comparable_at_14(retest->results, Property::glutathione) &&
            (!first || retest->taken_on < first->taken_on))
            first = retest;
    if (!first)
        return {};
    return aging::value_when_fresh(estimate, Property::glutathione,
                                   *comparable_at_14(first->results, Property::glutathione), first->taken_on);
}

/// What the dose goes by: of a lot of the book, or of flour to come as the lot it is expected to be.
dough::CardLot dosed_lot(const Station& s, const Book& book, const aging::Estimate& estimate,
                         const Lot& as_then, Grams left, const Run& run, const Product& product) {
    dough::CardLot lot;
    lot.lot = &as_then;
    lot.mass = left;
    lot.maturity = estimate.maturity_at(1 - s.estimates.confidence(), run.day);
    lot.has_target = counts_for_strength(book, product, as_then);
    lot.glutathione = fresh_glutathione(book, estimate, as_then);
    if (!product.oxidant || !as_then.id.is_known())
        return lot;
    constexpr OxidantPpm anything{5000}; // law and house cut it on the card
    const Bake* baked = s.doughs.newest_loaf(as_then.id, *product.oxidant);
    if (!baked)
        return lot;
    lot.best_dose =
        s.doughs.best_dose(as_then.id, *product.oxidant, anything, matured_since(*baked, estimate, run.day));
    lot.baked_at = estimate.maturity_at(0.5, baked->baked_on);
    return lot;
}

dough::CardLot card_lot(const Station& s, const Lot& as_then, Grams left, const Run& run,
                        const Product& product) {
    const auto& estimate = s.estimates.of(as_then.id);
    auto lot = dosed_lot(s, s.book, estimate, as_then, left, run, product);
    lot.lowest = estimate.maturity_at(0.1, run.day);
    lot.highest = estimate.maturity_at(0.9, run.day);
    lot.temperature = aging::flour_temperature_on(estimate.flour().path, aging::days_of(run.day));
    lot.start = start_of(s.book, as_then);
    lot.past_best_from = s.estimates.outlook_today(as_then.id).turns.past_best_from;
    lot.flour = s.book.flour(as_then.flour);
    lot.retest = newest_retest(s.book, as_then.id);
    lot.drift = drift_of(s, as_then.id, run.day);
    return lot;
}

bool is_before(const Run& a, const Run& b) {
    return std::tuple{a.day, a.line, a.sequence} < std::tuple{b.day, b.line, b.sequence} &&
           (a.day < b.day || a.line == b.line);
}

/// Dough absorption of the product's run before this one: as it was mixed, else as its lots would take it;
/// nothing when there was none with lots.
std::optional<Absorption14> absorption_before(const Station& s, const Run& run, const Product& product) {
    const Run* before = nullptr;
    for (const auto& other : s.book.runs)
        if (other.product == run.product && other.id != run.id && is_before(other, run) &&
            !s.book.assignments_of(other.id).empty() && (!before || is_before(*before, other)))
            before = &other;
    if (!before)
        return {};
    std::optional<Absorption14> mixed;
    for (const auto* batch : s.book.batches_of(before->id))
        if (!batch->is_countered && batch->absorption)
            mixed = batch->absorption;
    if (mixed)
        return mixed;
    std::vector<dough::WaterLot> lots;
    std::vector<dough::LotShare> shares;
    Grams all;
    for (const auto& a : s.book.assignments_of(before->id)) {
        const Lot* lot = s.book.lot(a.lot);
        if (!lot)
            continue;
        lots.push_back({lot->code, &lot->certificate, to_kilograms(a.mass), {}});
        shares.push_back({a.lot, static_cast<double>(a.mass.count())});
        all += a.mass;
    }
    for (auto& share : shares)
        share.share /= static_cast<double>(all.count());
    const auto learned = s.doughs.water().predict(product.id, before->line, shares, before->day);
    constexpr double any_step = 0.1;
    const auto water =
        dough::dough_water(lots, learned.offset + learned.deviation, AbsorptionPoints{0}, any_step);
    return water ? std::optional{water->target} : std::nullopt;
}

dough::WaterLearned water_of(const Station& s, const dough::CardInput& input) {
    std::vector<dough::LotShare> shares;
    double all = 0;
    for (const auto& lot : input.lots)
        all += static_cast<double>(lot.mass.count());
    for (const auto& lot : input.lots)
        shares.push_back({lot.lot->id, static_cast<double>(lot.mass.count()) / all});
    return s.doughs.water().predict(input.product.id, input.line.id, shares, input.run.day);
}

/// A rough mass of the dough, for the heat that mixing brings: the size of the batch counts, not its grams.
Kilograms dough_of(const Run& run, const Product& product) {
    const Kilograms flour = to_kilograms(run.flour) / std::max(1, run.batches);
    const auto beside = beside_flour(product.ingredients);
    const double parts = 1.6 + (beside.percent - beside.water_percent) / 100; // their water is of the 0.6
    return flour * parts;
}

std::optional<dough::SolutionAtHand> at_hand(const Station& s, const StockSolution* solution) {
    if (!solution)
        return {};
    const Instant now = s.setup.clock.now();
    const auto clock = [&](Instant at) { return s.setup.clock.in_words(at, s.today()); };
    return dough::SolutionAtHand{solution->grams_per_litre,
                                 fmt::format("{:g} g/L, made {} by {}, until {}", solution->grams_per_litre,
                                             clock(solution->made_at), solution->who,
                                             clock(solution->keeps_until)),
                                 now >= solution->keeps_until};
}

void add_keeping(const Station& s, const Product& product, dough::CardInput& input) {
    const auto mould = dough::site_mould(s.book.keeping, product.id);
    if (mould.newest_mould && dough::is_early_mould(*mould.newest_mould))
        input.early_mould = mould.newest_mould;
    if (product.propionate_percent <= 0)
        return;
    if (const auto measured = newest_ph(s.book, product.id)) {
        input.bread_ph = measured->ph;
        input.ph_words = measured->words;
    } else {
        input.bread_ph = Choices(s.book.settings).number("bread_ph");
        input.ph_words = "expected, not measured";
    }
}

dough::Distances distances_of(const Choices& choices) {
    return {Celsius{choices.number("hot_water_from")},
            CelsiusStep{choices.number("water_temperature_distance")},
            choices.number("water_distance"),
            CelsiusStep{choices.number("dough_temperature_distance")},
            CelsiusStep{choices.number("dough_too_warm")},
            choices.number("solution_distance")};
}

/// Decimals that a scale of this step shows.
int decimals_of(double step) {
    return std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 4);
}

void tell_oxidant(const Line& line, const Result<dough::CardOxidant>& oxidant, ToldFigures& told) {
    told.oxidant = {"Oxidant", {}, 0, "g", "", "not known"};
    if (!oxidant)
        return;
    told.oxidant.label = name_of(oxidant->substance);
    if (dough::is_withheld(*oxidant))
        told.oxidant.words = "withheld";
    else if (oxidant->pouring)
        told.oxidant = {told.oxidant.label, oxidant->pouring->rounded.value(), 0, "mL"};
    else if (oxidant->weighing)
        told.oxidant = {told.oxidant.label, oxidant->weighing->rounded_g,
                        decimals_of(line.oxidant_scale_step_g), "g"};
    else
        told.oxidant.value = 0;
}

/// What a silo gives with a lot goes into the bowl as well.
void stop_for_silos(const Station& s, RunCard& made) {
    if (!made.card)
        return;
    std::vector<BatchFlour> flour;
    for (const auto& part : made.card->flour)
        flour.push_back({part.lot, part.mass});
    const Run& run = made.input.run;
    for (auto& stop : silo_stops(s.book, run.id, flour, made.input.mixed_on.value_or(run.day)))
        object(made.verdict, dough::MixReason::lot_not_released, dough::CautionAt::flour,
               std::move(stop.words), std::string(silo_stop_lifted_by), stop.named);
}

} // namespace

std::optional<MeasuredPh> newest_ph(const Book& book, ProductId product) {
    const auto mould = dough::site_mould(book.keeping, product);
    std::optional<Day> of_dough;
    std::optional<double> dough_ph;
    for (const auto& batch : book.batches) {
        const Run* run = book.run(batch.run);
        if (batch.is_countered || !batch.result.ph || !run || run->product != product)
            continue;
        of_dough = run->day;
        dough_ph = batch.result.ph;
    }
    if (mould.ph && (!of_dough || *mould.ph_of >= *of_dough))
        return MeasuredPh{*mould.ph, fmt::format("crumb, {}", short_day(*mould.ph_of))};
    if (dough_ph)
        return MeasuredPh{*dough_ph, fmt::format("dough, {}", short_day(*of_dough))};
    return {};
}

std::unique_ptr<RunCard> run_card(const Station& s, const Run& run, const Product& product,
                                  const Line& line) {
    auto card = std::make_unique<RunCard>();
    auto& input = card->input;
    input.run = run;
    input.product = as_baked(product, run);
    input.line = line;
    for (const auto& a : s.book.assignments_of(run.id)) {
        const Lot* lot = s.book.lot(a.lot);
        // What is left of the assignment: the last batch takes the rest, to the gram.
        const Grams left = a.mass - s.book.used_for(run.id, a.lot);
        if (!lot || left <= Grams{0})
            continue;
        card->as_then_.push_back(as_on(s, *lot, run.day, card->moisture_words));
        input.lots.push_back(card_lot(s, card->as_then_.back(), left, run, product));
    }
    input.law = {s.book.limits, s.book.markets};
    input.propionate_rows = s.book.propionates;
    input.last_run_absorption = absorption_before(s, run, product);
    if (!input.lots.empty())
        input.water_learned = water_of(s, input);
    input.mixing = s.doughs.mixing().predict(line.id, product.id, dough_of(run, product));
    if (product.oxidant && line.stock_solution_g_per_l > 0) {
        card->solution = s.book.solution_of(*product.oxidant);
        input.solution = at_hand(s, card->solution);
    }
    add_keeping(s, product, input);
    const int mixed = s.book.batches_mixed(run);
    card->batch = std::min(mixed + 1, run.batches);
    card->is_finished = mixed >= run.batches;
    const Choices choices(s.book.settings);
    card->needs_check = choices.is_yes("second_check");
    input.units = house_units(s.book.settings);
    input.distances = distances_of(choices);
    if (run.day < s.today())
        input.mixed_on = s.today();
    input.mixed = s.book.used_for(run.id);
    card->card = dough::make_card(input);
    input.bags = bags_of(s, run.id, card->batch, card->card);
    card->verdict = dough::verdict_of(input, card->card);
    stop_for_silos(s, *card);
    return card;
}

Result<std::unique_ptr<RunCard>> run_card(const Station& s, RunId id) {
    const Run* run = s.book.run(id);
    const Product* product = run ? s.book.product(run->product) : nullptr;
    const Line* line = run ? s.book.line(run->line) : nullptr;
    if (!product || !line)
        return Refusal{"Run", "is not in the book", "Choose a run from the list"};
    auto made = run_card(s, *run, *product, *line);
    if (!made->is_finished && !made->card)
        return made->card.refusals();
    return made;
}

std::unique_ptr<RunCard> with_lots(const Station& s, const RunCard& made, std::span<const OtherLot> others) {
    auto card = std::make_unique<RunCard>();
    card->input = made.input;
    card->moisture_words = made.moisture_words;
    card->solution = made.solution;
    card->batch = made.batch;
    card->needs_check = made.needs_check;
    auto& input = card->input;
    for (const auto& other : others) {
        card->as_then_.push_back(as_on(s, *other.lot, input.run.day, card->moisture_words));
        input.lots.push_back(card_lot(s, card->as_then_.back(), other.mass, input.run, input.product));
        input.bags.right.push_back(other.lot->id);
    }
    card->card = dough::make_card(input);
    card->verdict = dough::verdict_of(input, card->card);
    stop_for_silos(s, *card);
    return card;
}

Result<dough::Card> planned_dose(const Station& s, PlanView& view, const Run& run, const Product& product,
                                 const Line& line, std::vector<Given> given) {
    // As the book holds assignments, for a batch that takes one lot takes the first that reaches.
    std::stable_sort(given.begin(), given.end(), [](const Given& a, const Given& b) {
        return std::tuple(!a.lot.is_known(), b.mass, a.lot) < std::tuple(!b.lot.is_known(), a.mass, b.lot);
    });
    dough::CardInput input;
    input.run = run;
    input.product = as_baked(product, run);
    input.line = line;
    std::deque<Lot> judged; ///< of which the plan counts on that they will be released
    for (const auto& g : given) {
        const PlanFlour* flour = view.flour(g);
        const Grams left = g.lot.is_known() ? g.mass - view.book.used_for(run.id, g.lot) : g.mass;
        if (!flour || left <= Grams{0})
            continue;
        const Lot* lot = &flour->lot;
        if (lot->state == LotState::awaiting_judgement) {
            lot = &judged.emplace_back(*lot);
            judged.back().state = LotState::released;
        }
        input.lots.push_back(dosed_lot(s, view.book, *flour->estimate, *lot, left, run, product));
    }
    input.law = {view.book.limits, view.book.markets};
    if (product.oxidant && line.stock_solution_g_per_l > 0)
        input.solution = at_hand(s, view.book.solution_of(*product.oxidant));
    input.units = house_units(view.book.settings);
    input.mixed = view.book.used_for(run.id);
    return dough::make_dose_card(input);
}

ToldFigures told_figures(const RunCard& made, const dough::Card& card) {
    ToldFigures told{{"Water", {}, 1, "kg"}, {"Water temperature", {}, 1, "°C"}, {"Ice", {}, 1, "kg"}, {}};
    // What a stop is about is no figure to weigh.
    if (made.verdict.has(dough::MixReason::water_impossible)) {
        for (Figure* figure : {&told.water, &told.water_temperature, &told.ice})
            figure->words = "withheld";
    } else if (card.water) {
        told.water.value = card.water->told.value();
        told.ice.value = card.water->ice.value();
    }
    if (card.temperature && told.water_temperature.words.empty())
        told.water_temperature.value = card.temperature->mix.water_temperature.value();
    if (card.oxidant)
        tell_oxidant(made.input.line, *card.oxidant, told);
    return told;
}

} // namespace mellowbin::app
