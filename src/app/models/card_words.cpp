#include "app/models/card_words.h"

#include "app/book/book.h"
#include "app/book/draw_places.h"
#include "app/models/aging_words.h"
#include "app/models/dose_words.h"
#include "app/models/fermentation_words.h"
#include "app/models/maturity_words.h"
#include "app/plan/silos.h"
#include "core/decimal.h"
#include "core/house_units.h"
#include "core/normal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

std::string plain(double value, int decimals) { return fixed(value, decimals); }

/// What really comes where it is drawn from a silo: "holds A 60 %, may hold B 40 %"; empty where that is the
/// lot alone, or no silo.
std::string drawn_words(const Station& s, LotId lot, const std::vector<PlacedFlour>& places,
                        const std::map<PlaceId, std::vector<Layer>>& silos) {
    std::string words;
    for (const auto& from : places) {
        const auto silo = silos.find(from.place);
        if (silo == silos.end())
            continue;
        const auto parts = drawn(silo->second, s.book.silos.at(from.place).zone, from.mass);
        if (!parts || (parts->size() == 1 && parts->front().lot == lot))
            continue;
        for (const auto& part : *parts) {
            const Lot* one = s.book.lot(part.lot);
            words +=
                fmt::format("{}{} {} {:.0f} %", words.empty() ? "" : ", ",
                            part.certainty == Certainty::contains ? "holds" : "may hold",
                            one ? one->code : "?", to_kilograms(part.mass) / to_kilograms(from.mass) * 100);
        }
    }
    return words;
}

/// Where the batch's part is drawn from, and where it could be.
void show_places(const Station& s, RunId run, const dough::CardFlour& flour,
                 const std::map<PlaceId, std::vector<Layer>>& silos, CardLot& shown) {
    const Lot* lot = s.book.lot(flour.lot);
    const auto draws = draw_places(s.book, run, flour.lot, flour.mass);
    shown.place = draws.empty() && lot ? s.book.name(lot->received_into) : in_words(s.book, draws);
    shown.drawn = drawn_words(s, flour.lot, draws, silos);
    for (const auto& [place, mass] : s.book.stock.places_of(flour.lot))
        shown.places.push_back(
            {s.book.name(place), to_kilograms(mass).value(), !draws.empty() && draws.front().place == place});
}

void show_flour(const Station& s, RunId run, const dough::Verdict& verdict, const dough::Card& card,
                CardModel& model) {
    const auto silos = silo_layers(s.book);
    for (const auto& flour : card.flour) {
        const Lot* lot = s.book.lot(flour.lot);
        CardLot shown;
        shown.lot = flour.lot;
        shown.code = flour.code;
        shown.is_withheld = verdict.withholds(flour.lot);
        shown.kg = to_kilograms(flour.mass).value();
        shown.bags = flour.bags;
        shown.loose_kg = to_kilograms(flour.rest).value();
        show_places(s, run, flour, silos, shown);
        const double rate = lot && !s.book.is_aside(lot->id) ? maturing_rate(s.estimates, lot->id) : 0;
        shown.readiness = fmt::format("mature {} ({})", maturity_words(flour.maturity, rate),
                                      maturity_range_words(flour.lowest, flour.highest));
        model.lots.push_back(std::move(shown));
    }
}

std::string how_sure(const dough::CardWater& water) {
    if (water.sd <= 0)
        return {};
    return fmt::format(", give or take {} points (80 of 100 doughs)", plain(to_10_and_90 * water.sd, 1));
}

std::string offset_from(const dough::CardWater& water) {
    if (water.batches == 0)
        return std::string(dough::name_of(water.offset_origin));
    return fmt::format("learned from {} {}", water.batches, water.batches == 1 ? "batch" : "batches");
}

void show_water(const RunCard& made_from, const dough::Card& card, const HouseUnits& house,
                CardModel& model) {
    if (!card.water) {
        model.water.note = in_words(card.water.refusals().front());
        return;
    }
    const auto& water = *card.water;
    model.water.note = fmt::format(
        "{} % on flour as is, exact {} in all; {} % {} {:+.1f} ({}) = {} % at 14 %{}; told makes {} %",
        plain(water.dough.as_is.value(), 1), house.with_unit(water.dough.exact, 2),
        plain(water.dough.farinograph.value(), 1),
        water.guessed.empty() ? "by certificates" : "by certificates and composition",
        water.dough.offset.value(), offset_from(water), plain(water.dough.target.value(), 1), how_sure(water),
        plain(water.resulting.value(), 2));
    if (water.stock_solution.value() > 0)
        model.water.note +=
            fmt::format("; {} of it is the stock solution's", house.with_unit(water.stock_solution, 2));
    if (water.ingredients.value() > 0)
        model.water.note +=
            fmt::format("; {} of it is in the ingredients", house.with_unit(water.ingredients, 2));
    model.water.note += made_from.moisture_words;
    if (water.sd > 0)
        model.water_range_words = dough::water_range_words();
}

std::string method_words(const dough::CardTemperature& t) {
    if (t.method == dough::TemperatureMethod::factors)
        return "factor method";
    if (!t.learned)
        return "heat balance";
    return fmt::format("heat balance, {} kJ/kg of mixing {}", plain(t.learned->kj_per_kg, 1),
                       t.learned->batches > 0 ? fmt::format("learned from {} {}", t.learned->batches,
                                                            t.learned->batches == 1 ? "batch" : "batches")
                                              : "as other doughs on this mixer");
}

void show_temperature(const dough::Card& card, const HouseUnits& house, CardModel& model) {
    if (!card.temperature) {
        model.water_temperature.note = in_words(card.temperature.refusals().front());
        return;
    }
    const auto& t = *card.temperature;
    model.water_temperature.note = fmt::format(
        "{}; needed {} for dough at {}, room {}, flour {}", method_words(t), house.with_unit(t.mix.needed),
        house.with_unit(t.dough), house.with_unit(t.room), house.with_unit(t.flour));
    if (t.give_or_take.value() > 0)
        model.water_temperature.note += fmt::format(
            "; comes to within {} in 80 of 100 by the line's own thermometer; one that is off puts "
            "the dough off by as much, unseen: hold it against another",
            house.with_unit(t.give_or_take));
    if (t.mix.is_capped)
        model.ice.note = fmt::format("{} would be needed; the dough will be {} too warm",
                                     house.with_unit(t.mix.ice_needed), house.with_unit(t.mix.too_warm));
}

std::string baked_words(const dough::CardOxidant& oxidant) {
    if (!oxidant.baked)
        return {};
    return fmt::format(" By bakes best at {} mg/kg ({} to {} in 80 of 100), {} {}.",
                       plain(oxidant.baked->dose.value(), 0), plain(oxidant.baked->low.value(), 0),
                       plain(oxidant.baked->high.value(), 0), oxidant.baked->loaves,
                       oxidant.baked->loaves == 1 ? "loaf" : "loaves");
}

void show_solution(const RunCard& made_from, CardModel& model) {
    const auto& input = made_from.input;
    model.pours = input.product.oxidant && input.line.stock_solution_g_per_l > 0 &&
                  dough::may_be_dissolved(*input.product.oxidant);
    if (!made_from.input.solution)
        return;
    model.solution = made_from.input.solution->words;
    model.solution_is_past = made_from.input.solution->is_past;
    if (made_from.solution)
        model.solution_id = made_from.solution->id;
}

void show_no_dose(const dough::CardOxidant& oxidant, CardModel& model) {
    if (dough::is_withheld(oxidant))
        model.oxidant.note = oxidant.room.words;
    else if (oxidant.baked && oxidant.wanted.value() <= 0)
        model.oxidant.note = "none needed: by its bakes none is best";
    else
        model.oxidant.note = "none needed: the flour is mature enough, or the mill has seen to it";
}

void show_oxidant(const dough::Card& card, CardModel& model) {
    if (!card.oxidant)
        return;
    if (!*card.oxidant) {
        model.oxidant.note = in_words(card.oxidant->refusals().front());
        return;
    }
    const auto& oxidant = **card.oxidant;
    model.oxidant_ppm = oxidant.resulting.value();
    if (!oxidant.pouring && !oxidant.weighing) {
        show_no_dose(oxidant, model);
        return;
    }
    const auto exact =
        oxidant.pouring
            ? fmt::format("of stock solution {:g} g/L, in which are {} g; exact {} mL", oxidant.stock_g_per_l,
                          plain(oxidant.exact_g, 2), plain(oxidant.pouring->exact.value(), 1))
            : fmt::format("exact {} g", plain(oxidant.weighing->exact_g, 3));
    model.oxidant.note =
        fmt::format("{} = {} mg/kg; gives {} mg/kg. {} of maturity is missing.{} {}", exact,
                    dose_words(oxidant.exact), dose_words(oxidant.resulting),
                    percent_words(oxidant.need.missing), baked_words(oxidant), oxidant.room.words);
}

/// What the true oxidants of mill and bakery oxidise together, as chemistry counts it; the law's sum by mass
/// stands with the dose.
void show_all_oxidants(const dough::Card& card, CardModel& model) {
    auto doses = card.carried;
    if (card.oxidant && *card.oxidant && (**card.oxidant).resulting.value() > 0)
        doses.push_back({(**card.oxidant).substance, (**card.oxidant).resulting});
    std::erase_if(doses, [](const MillAddition& dose) { return dose.substance == Substance::ascorbic_acid; });
    if (doses.size() < 2)
        return;
    const auto sum = dough::milliequivalents(doses);
    model.figures.push_back(
        {"Oxidants in all", sum ? std::optional{*sum} : std::nullopt, 2, "meq/kg",
         sum ? "by chemistry, of sulfhydryl oxidised; ascorbic acid is not among them; the "
               "law adds up by mass"
             : in_words(sum.refusals().front())});
}

std::string keeping_note(const dough::CardKeeping& keeping) {
    if (keeping.is_withheld)
        return "withheld: " + keeping.withheld_words;
    auto words = fmt::format("{:g} % of flour", keeping.percent_of_flour);
    if (keeping.in_bread)
        words += fmt::format("; {} mg/kg bread as salt, {} as acid", plain(keeping.in_bread->as_salt, 0),
                             plain(keeping.in_bread->as_acid, 0));
    if (keeping.ph)
        if (const auto acid = dough::acid_at_work(*keeping.ph))
            words += fmt::format("; {}{}", dough::in_words(*acid),
                                 keeping.ph_words.empty() ? "" : " (pH: " + keeping.ph_words + ")");
    return words;
}

std::string ingredient_note(const dough::CardIngredient& ingredient, const HouseUnits& house) {
    auto words = fmt::format("{:g} % of flour", ingredient.percent_of_flour);
    if (ingredient.water.value() > 0)
        words += fmt::format("; {} of it water", house.with_unit(ingredient.water));
    if (ingredient.temperature)
        words += fmt::format("; at {}", house.with_unit(*ingredient.temperature));
    return words;
}

void show_figures(const dough::Card& card, CardModel& model) {
    for (const auto& ingredient : card.ingredients) {
        model.ingredients.push_back(
            {ingredient.name, ingredient.mass.value(), 2, "kg", ingredient_note(ingredient, model.units)});
    }
    if (card.dough && card.water && card.water->ingredients.value() > 0)
        model.figures.push_back(
            {"Dough in all", card.dough->value(), 1, "kg",
             fmt::format(
                 "{} of flour give {} of dough", model.units.with_unit(Kilograms{100}),
                 model.units.with_unit(*card.dough / to_kilograms(card.batch_flour) * Kilograms{100}))});
    if (card.keeping) {
        const auto& keeping = *card.keeping;
        const auto told = keeping.is_withheld ? std::nullopt : std::optional{keeping.exact_g};
        model.ingredients.push_back({std::string(name_of(keeping.preservative)), told, 0, "g",
                                     keeping_note(keeping), keeping.is_withheld ? "withheld" : ""});
    }
    for (const auto& figure : card.blend) {
        const auto& kind = traits(figure.property);
        if (!figure.value)
            continue;
        model.figures.push_back({"Blend: " + std::string(kind.name), *figure.value, kind.decimals,
                                 std::string(kind.unit),
                                 figure.is_estimate ? "estimate: ask for a blend test"
                                                    : std::string(dough::name_of(figure.origin))});
    }
    model.figures.push_back({"Blend: maturity", card.maturity.value(), 2, std::string(share_unit),
                             "model; " + maturity_range_words(card.lowest, card.highest)});
    for (const auto& addition : card.carried)
        model.figures.push_back({"From the mill: " + std::string(name_of(addition.substance)),
                                 addition.dose.value(), 1, "mg/kg", "certificate"});
    show_all_oxidants(card, model);
}

void show_cautions(const dough::Card& card, CardModel& model) {
    for (const auto& caution : card.cautions) {
        const bool is_oxidant = caution.at == dough::CautionAt::oxidant;
        model.cautions.push_back({caution.words + (caution.source.empty() ? "" : " (" + caution.source + ")"),
                                  is_oxidant ? CardCaution::Beside::oxidant : CardCaution::Beside::card});
    }
}

} // namespace

CardVerdict shown(const dough::Verdict& verdict) {
    CardVerdict model;
    model.ruling = static_cast<CardVerdict::Ruling>(verdict.may_mix());
    model.words = name_of(verdict.may_mix());
    for (const auto& one : verdict.against) {
        const auto& kind = dough::traits(one.reason);
        model.reasons.push_back({std::string(kind.key), kind.may_mix == dough::MayMix::do_not_mix, one.words,
                                 one.lifted_by, std::string(kind.source)});
    }
    return model;
}

void show_card(const Station& s, const RunCard& made, const dough::Card& card, CardModel& model) {
    model.needs_check = made.needs_check;
    model.flour_kg = to_kilograms(card.batch_flour).value();
    model.dough_temperature = {"Dough temperature", card.dough_temperature.value(), 1, "°C"};
    if (card.mixing_minutes > 0)
        model.mixing = fmt::format("{:g} min", card.mixing_minutes);
    model.fermentation_minutes = card.fermentation_minutes;
    model.longer_fermentation_minutes = card.longer_fermentation_minutes;
    model.fermentation = fermentation_in_words(card.fermentation_minutes);
    model.fermentation_why = longer_in_words(card.fermentation_minutes, card.longer_fermentation_minutes);
    auto told = told_figures(made, card);
    model.water = std::move(told.water);
    model.water_temperature = std::move(told.water_temperature);
    model.ice = std::move(told.ice);
    model.oxidant = std::move(told.oxidant);
    show_flour(s, made.input.run.id, made.verdict, card, model);
    show_water(made, card, model.units, model);
    show_temperature(card, model.units, model);
    show_oxidant(card, model);
    show_solution(made, model);
    show_figures(card, model);
    show_cautions(card, model);
}

} // namespace mellowbin::app
