#include "app/plan_parts.h"
#include "app/setting_table.h"
#include "app/state.h"
#include "core/decimal.h"
#include "dough/card.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <deque>

namespace mellowbin::app {
namespace {

std::string plain(double value, int decimals) { return fixed(value, decimals); }
std::string kg(Kilograms mass, int decimals = 1) { return fixed(mass.value(), decimals); }

PlaceId fullest_place(const Book& book, const Lot& lot) {
    PlaceId place = lot.received_into;
    Grams most;
    for (const auto& [id, mass] : book.stock.places_of(lot.id)) {
        if (mass <= most)
            continue;
        most = mass;
        place = id;
    }
    return place;
}

/// The lots of a run as they will lie there on its day.
struct RunLots {
    std::deque<Lot> as_then; ///< copies that stay where they are, with the moisture of the day
    std::vector<dough::CardLot> lots;
    std::string moisture_words; ///< of what was predicted; empty: the certificates' hold
};

/// Whether the product's target of maturity is about this flour.
bool counts_for_strength(const Book& book, const Product& product, const Lot& lot) {
    const auto part = part_of(product, lot.flour);
    return !part || has_target(book, product, *part);
}

RunLots lots_of(const App::State& s, const Run& run, const Product& product) {
    constexpr double worth_telling = 0.05; // points of moisture
    RunLots found;
    for (const auto& a : s.book.assignments_of(run.id)) {
        const Lot* lot = s.book.lot(a.lot);
        // What is left of the assignment: the last batch takes the rest, to the gram.
        const Grams left = a.mass - s.book.used_for(run.id, a.lot);
        if (!lot || left <= Grams{0})
            continue;
        found.as_then.push_back(*lot);
        const auto before = lot->certificate.moisture();
        const auto then = s.estimates.moisture_on(lot->id, run.day);
        if (then && before) {
            found.as_then.back().certificate = at_moisture(lot->certificate, *then);
            if (std::abs(then->value() - before->value()) > worth_telling)
                found.moisture_words +=
                    fmt::format("; {} at {} % moisture on the day, by drift in its place ({} % on "
                                "its certificate)",
                                lot->code, plain(then->value(), 1), plain(before->value(), 1));
        }
        const auto& estimate = s.estimates.of(lot->id);
        found.lots.push_back({&found.as_then.back(), left, counted_maturity(s.estimates, lot->id, run.day),
                              estimate.maturity_at(0.1, run.day), estimate.maturity_at(0.9, run.day),
                              aging::flour_temperature_on(estimate.flour().path, aging::days_of(run.day)),
                              counts_for_strength(s.book, product, *lot)});
    }
    return found;
}

/// Dough absorption of the product's run before this one; nothing when there was none with lots.
std::optional<Absorption14> absorption_before(const Book& book, const Run& run, const Product& product,
                                              double step) {
    const Run* before = nullptr;
    for (const auto& other : book.runs) {
        const bool is_earlier = std::tuple{other.day, other.sequence} < std::tuple{run.day, run.sequence};
        if (other.product == run.product && other.id != run.id && is_earlier &&
            !book.assignments_of(other.id).empty())
            before = &other;
    }
    if (!before)
        return {};
    std::vector<dough::WaterLot> lots;
    for (const auto& a : book.assignments_of(before->id))
        if (const Lot* lot = book.lot(a.lot))
            lots.push_back({lot->code, &lot->certificate, to_kilograms(a.mass)});
    const auto water = dough::dough_water(lots, product.water_offset, AbsorptionPoints{0}, step);
    if (!water)
        return {};
    return water->target;
}

void show_flour(const App::State& s, const dough::Card& card, CardModel& model) {
    for (const auto& flour : card.flour) {
        const Lot* lot = s.book.lot(flour.lot);
        CardLot shown;
        shown.lot = flour.lot;
        shown.code = flour.code;
        shown.kg = to_kilograms(flour.mass).value();
        shown.bags = flour.bags;
        shown.loose_kg = to_kilograms(flour.rest).value();
        shown.place = lot ? s.book.name(fullest_place(s.book, *lot)) : "";
        shown.readiness = fmt::format("maturity {:.2f} ({:.2f} to {:.2f})", flour.maturity.value(),
                                      flour.lowest.value(), flour.highest.value());
        model.lots.push_back(std::move(shown));
    }
}

void show_water(const dough::Card& card, CardModel& model) {
    if (!card.water) {
        model.water_kg = "–";
        model.water_note = in_words(card.water.refusals().front());
        return;
    }
    const auto& water = *card.water;
    model.water_kg = kg(water.told);
    model.water_note = fmt::format("{} % on flour as is, exact {} kg in all; {} % by certificates {:+.1f} "
                                   "({}) = {} % at 14 %; told makes {} %",
                                   plain(water.dough.as_is.value(), 1), kg(water.dough.exact, 2),
                                   plain(water.dough.farinograph.value(), 1), water.dough.offset.value(),
                                   dough::name_of(water.offset_origin), plain(water.dough.target.value(), 1),
                                   plain(water.resulting.value(), 2));
    if (water.stock_solution.value() > 0)
        model.water_note += fmt::format("; {} kg of it is the stock solution's", kg(water.stock_solution, 2));
}

void show_temperature(const dough::Card& card, CardModel& model) {
    model.ice_kg = card.water ? kg(card.water->ice) : "–";
    if (!card.temperature) {
        model.water_temperature = "–";
        model.water_temperature_note = in_words(card.temperature.refusals().front());
        return;
    }
    const auto& t = *card.temperature;
    model.water_temperature = plain(t.mix.water_temperature.value(), 1);
    model.water_temperature_note =
        fmt::format("{}; needed {} °C for dough at {} °C, room {} °C, flour {} °C",
                    t.method == dough::TemperatureMethod::heat_balance ? "heat balance" : "factor method",
                    plain(t.mix.needed.value(), 1), plain(t.dough.value(), 1), plain(t.room.value(), 1),
                    plain(t.flour.value(), 1));
    if (t.mix.is_capped) {
        model.ice_note = fmt::format("{} kg would be needed; the dough will be {} °C too warm",
                                     kg(t.mix.ice_needed), plain(t.mix.too_warm.value(), 1));
    }
}

/// Decimals that a scale of this step shows.
int decimals_of(double step) {
    return std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 4);
}

void show_oxidant(const dough::Card& card, double scale_step, CardModel& model) {
    if (!card.oxidant)
        return;
    if (!*card.oxidant) {
        model.oxidant = "Oxidant";
        model.oxidant_amount = "0";
        model.oxidant_unit = "g";
        model.oxidant_note = in_words(card.oxidant->refusals().front());
        return;
    }
    const auto& oxidant = **card.oxidant;
    model.oxidant = name_of(oxidant.substance);
    if (!oxidant.pouring && !oxidant.weighing) {
        model.oxidant_amount = "0";
        model.oxidant_unit = "g";
        const bool is_needed = oxidant.need.dose.value() > 0;
        model.oxidant_note =
            is_needed ? fmt::format("{} mg/kg would make up for missing maturity of {:.2f}, but: {}",
                                    plain(oxidant.need.dose.value(), 1), oxidant.need.missing.value(),
                                    oxidant.room.words)
                      : "none needed: the flour is mature enough, or the mill has seen to it";
        return;
    }
    std::string exact;
    if (oxidant.pouring) {
        model.oxidant_amount = plain(oxidant.pouring->rounded.value(), 0);
        model.oxidant_unit = "mL";
        exact = fmt::format("of stock solution {:g} g/L; exact {} mL", oxidant.stock_g_per_l,
                            plain(oxidant.pouring->exact.value(), 1));
    } else if (oxidant.weighing) {
        model.oxidant_amount = plain(oxidant.weighing->rounded_g, decimals_of(scale_step));
        model.oxidant_unit = "g";
        exact = fmt::format("exact {} g", plain(oxidant.weighing->exact_g, 3));
    }
    model.oxidant_note = fmt::format("{} = {} mg/kg; gives {} mg/kg. Missing maturity {:.2f}. {}", exact,
                                     plain(oxidant.exact.value(), 2), plain(oxidant.resulting.value(), 2),
                                     oxidant.need.missing.value(), oxidant.room.words);
}

void show_figures(const dough::Card& card, CardModel& model) {
    for (const auto& ingredient : card.ingredients) {
        model.figures.push_back({ingredient.name, kg(ingredient.mass, 2), "kg",
                                 fmt::format("{:g} % of flour", ingredient.percent_of_flour)});
    }
    if (card.keeping) {
        model.figures.push_back(
            {"Calcium propionate", plain(card.keeping->exact_g, 0), "g",
             fmt::format("{:g} % of flour; {} mg/kg bread as salt, {} as acid",
                         card.keeping->percent_of_flour, plain(card.keeping->in_bread.as_salt, 0),
                         plain(card.keeping->in_bread.as_acid, 0))});
    }
    for (const auto& figure : card.blend) {
        const auto& kind = traits(figure.property);
        if (!figure.value)
            continue;
        model.figures.push_back({"Blend: " + std::string(kind.name), plain(*figure.value, kind.decimals),
                                 std::string(kind.unit),
                                 figure.is_estimate ? "estimate: ask for a blend test"
                                                    : std::string(dough::name_of(figure.origin))});
    }
    model.figures.push_back(
        {"Blend: maturity", plain(card.maturity.value(), 2), "",
         fmt::format("model; {:.2f} to {:.2f}", card.lowest.value(), card.highest.value())});
    for (const auto& addition : card.carried)
        model.figures.push_back({"From the mill: " + std::string(name_of(addition.substance)),
                                 plain(addition.dose.value(), 1), "mg/kg", "certificate"});
}

void show_cautions(const dough::Card& card, CardModel& model) {
    for (const auto& caution : card.cautions) {
        // That law comes first is said on every card; it forbids nothing by itself.
        const bool is_stop = caution.kind == dough::CautionKind::law && caution.at != dough::CautionAt::card;
        const bool is_oxidant = caution.at == dough::CautionAt::oxidant;
        model.cautions.push_back({is_stop,
                                  caution.words + (caution.source.empty() ? "" : " (" + caution.source + ")"),
                                  is_oxidant ? CardCaution::Beside::oxidant : CardCaution::Beside::card});
    }
}

std::string fermentation_in_words(int minutes) {
    if (minutes < 120)
        return fmt::format("{} min", minutes);
    return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                             : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

CardModel heading_of(const App::State& s, const Run& run) {
    CardModel model;
    const Product* product = s.book.product(run.product);
    const Line* line = s.book.line(run.line);
    model.run = run.id;
    model.run_code = run.code;
    model.product = product ? product->name : "?";
    model.line = line ? line->name : "?";
    model.market = product ? product->market : "";
    model.day = run.day;
    model.batches = run.batches;
    const int mixed = s.book.batches_mixed(run);
    model.is_finished = mixed >= run.batches;
    model.batch = std::min(mixed + 1, run.batches);
    return model;
}

/// Flour that the plan has of deliveries to come: it is not there for this card.
void warn_of_promises(const Book& book, const Run& run, CardModel& model) {
    for (const auto& promise : book.promises_of(run.id)) {
        const auto* delivery = book.delivery(promise.delivery);
        model.cautions.insert(
            model.cautions.begin(),
            {true, fmt::format("{} kg of delivery {} are still to come: say which lot it "
                               "came as, or plan again",
                               kg(to_kilograms(promise.mass)), delivery ? delivery->code : "?")});
    }
}

/// A run whose lots do not reach for all its batches: said before the first one, not found out at the last.
void warn_of_shortage(const Book& book, const Run& run, CardModel& model) {
    Grams assigned;
    for (const auto& a : book.assignments_of(run.id))
        assigned += a.mass;
    if (assigned >= run.flour - Grams{run.batches} || run.batches < 1)
        return;
    const auto batch = run.flour.count() / run.batches;
    model.cautions.insert(
        model.cautions.begin(),
        {true, fmt::format("Flour is short by {} kg: the lots reach for {} of {} batches",
                           kg(to_kilograms(run.flour - assigned)), assigned.count() / batch, run.batches)});
}

} // namespace

CardModel make_card(const App::State& s, RunId id) {
    const Run* run = s.book.run(id);
    if (!run) {
        CardModel none;
        none.refusals.push_back({"Run", "is not in the book", "Choose a run from the list"});
        return none;
    }
    CardModel model = heading_of(s, *run);
    const Product* product = s.book.product(run->product);
    const Line* line = s.book.line(run->line);
    if (model.is_finished || !product || !line)
        return model;

    dough::CardInput input;
    input.run = *run;
    input.product = *product;
    input.line = *line;
    const auto lots = lots_of(s, *run, *product);
    input.lots = lots.lots;
    input.law = {s.book.limits, s.book.markets};
    input.propionate_rows = dough::shipped_propionate_limits();
    input.last_run_absorption = absorption_before(s.book, *run, *product, line->water_step_kg);
    if (product->propionate_percent > 0)
        input.bread_ph = Choices(s.book.settings).number("bread_ph");
    const auto card = dough::make_card(input);
    if (!card) {
        model.refusals = card.refusals();
        return model;
    }
    model.flour_kg = to_kilograms(card->batch_flour).value();
    model.dough_temperature = plain(card->dough_temperature.value(), 1);
    model.fermentation = fermentation_in_words(card->fermentation_minutes);
    show_flour(s, *card, model);
    show_water(*card, model);
    model.water_note += lots.moisture_words;
    show_temperature(*card, model);
    show_oxidant(*card, line->oxidant_scale_step_g, model);
    show_figures(*card, model);
    show_cautions(*card, model);
    warn_of_shortage(s.book, *run, model);
    warn_of_promises(s.book, *run, model);
    return model;
}

void make_mixer(App::State& s) {
    MixerModel& model = s.mixer;
    model.today = s.today();
    model.runs.clear();
    const Run* first_open = nullptr;
    for (const auto& run : s.book.runs) {
        if (run.day != model.today)
            continue;
        const Product* product = s.book.product(run.product);
        const Line* line = s.book.line(run.line);
        const bool is_finished = s.book.batches_mixed(run) >= run.batches;
        if (!is_finished && !first_open)
            first_open = &run;
        model.runs.push_back({run.id,
                              fmt::format("{}, no. {}: {}, {} batches", line ? line->name : "?", run.sequence,
                                          product ? product->name : "?", run.batches),
                              is_finished});
    }
    const bool is_chosen = s.opened_run.is_known() && s.book.run(s.opened_run);
    if (!is_chosen && first_open)
        s.opened_run = first_open->id;
    model.card.reset();
    if (s.opened_run.is_known() && s.book.run(s.opened_run))
        model.card = make_card(s, s.opened_run);
}

} // namespace mellowbin::app
