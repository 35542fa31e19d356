#include "core/decimal.h"
#include "core/literature/constants.h"
#include "core/normal.h"
#include "dough/card_parts.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace mellowbin::dough::parts {
namespace {

namespace lit = literature;

constexpr double interval = 1.96; // standard deviations to either side: 95 %

double squared(double x) { return x * x; }

/// Its absorption is told from other lots. A certificate that has a figure without a basis has none to use.
bool is_guessed(const CardLot& lot) {
    return lot.start && lot.start->from == AbsorptionStart::From::composition &&
           !comparable_at_14(lot.lot->certificate, Property::absorption);
}

double to_step(double value, double step) { return std::round(value / step) * step; }

Celsius flour_temperature(const CardInput& input, const Card& card) {
    double mean = 0;
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        mean += card.flour[i].share * input.lots[i].temperature.value();
    return Celsius{mean};
}

/// Learned on the mixer, else the line's own figure; nothing: neither.
std::optional<double> mixing_heat(const CardInput& input) {
    if (input.mixing)
        return input.mixing->kj_per_kg;
    return input.line.mixing_energy_kj_per_kg;
}

DoughHeat heat_of(const CardInput& input, const Card& card, Kilograms water) {
    DoughHeat dough{input.product.dough_temperature,
                    water,
                    {flour_part(to_kilograms(card.batch_flour), flour_temperature(input, card))},
                    mixing_heat(input).value_or(0)};
    for (const auto& ingredient : card.ingredients)
        dough.parts.push_back(ingredient_part(
            ingredient.mass, ingredient.mass.value() > 0 ? 100 * (ingredient.water / ingredient.mass) : 0,
            ingredient.temperature.value_or(input.line.room)));
    return dough;
}

Celsius water_needed(const CardInput& input, const DoughHeat& dough, Celsius flour) {
    if (mixing_heat(input))
        return water_by_heat_balance(dough);
    const std::array others{input.line.room, flour};
    return water_by_factors(input.product.dough_temperature, others, input.line.friction_factor);
}

CardTemperature set_temperature(const CardInput& input, const DoughHeat& dough, Celsius flour,
                                Kilograms from_line) {
    const ColdSource cold{input.line.tap_water, input.line.coldest_water, input.line.most_ice,
                          input.line.ice_temperature};
    CardTemperature set;
    set.method = mixing_heat(input) ? TemperatureMethod::heat_balance : TemperatureMethod::factors;
    set.dough = input.product.dough_temperature;
    set.room = input.line.room;
    set.flour = flour;
    set.mix = chill(water_needed(input, dough, flour), from_line, cold, dough);
    set.learned = input.mixing;
    if (input.mixing)
        set.give_or_take = CelsiusStep{to_10_and_90 * input.mixing->reading_sd / dough.heat()};
    return set;
}

Kilograms stock_water(const Card& card) {
    if (!card.oxidant || !*card.oxidant || !(**card.oxidant).pouring)
        return {};
    return (**card.oxidant).pouring->water;
}

/// Ice to a whole step, never above the cap; the meter's water takes up the difference.
void tell(const Line& line, const CardTemperature& temperature, CardWater& water) {
    const double step = line.water_step_kg;
    const double ice = temperature.mix.ice.value();
    const double most = line.most_ice * (water.dough.exact - water.ingredients).value();
    const double rounded = to_step(ice, step);
    water.ice = Kilograms{rounded <= most ? rounded : std::floor(most / step) * step};
    const Kilograms elsewhere = water.stock_solution + water.ingredients + water.ice;
    water.told = Kilograms{to_step((water.dough.exact - elsewhere).value(), step)};
    water.resulting = water.dough.absorption_with(water.told + elsewhere);
}

/// Points of water, on flour at 14 % moisture, that a point of the flour's moisture stands for.
double points_of_moisture(Absorption14 target, Moisture moisture) {
    return (100 + target.value()) / (100 - moisture.value());
}

/// Of the lot alone: so far its water stands from where the measured moisture would have it.
double drifted_points(const CardLot& lot, Absorption14 target) {
    const auto now = lot.lot->certificate.moisture();
    if (!lot.drift || !now)
        return 0;
    return (lot.drift->measured.value() - now->value()) * points_of_moisture(target, *now);
}

void ask_for_moisture(const CardInput& input, const CardWater& water, Card& card) {
    for (std::size_t i = 0; i < input.lots.size(); ++i) {
        const auto& lot = input.lots[i];
        const double points = drifted_points(lot, water.dough.target);
        if (std::abs(points) <= lit::dough_moisture_points.value)
            continue;
        warn(card, CautionKind::estimate, CautionAt::water,
             fmt::format(
                 "Lot {}: its moisture, {} %, is told by the drift in its place and not measured ({} % "
                 "was), which is {} points {} water: test its moisture before the first dough",
                 card.flour[i].code, fixed(lot.lot->certificate.moisture()->value(), 1),
                 fixed(lot.drift->measured.value(), 1), fixed(std::abs(points), 1),
                 points > 0 ? "more" : "less"));
    }
}

void warn_of_absorption(const CardInput& input, const CardWater& water, Card& card) {
    if (input.last_run_absorption)
        if (auto words = absorption_jump(water.resulting, *input.last_run_absorption))
            warn(card, CautionKind::process, CautionAt::water, *std::move(words));
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        if (is_guessed(input.lots[i]))
            warn(card, CautionKind::estimate, CautionAt::water,
                 fmt::format("Lot {}: the absorption is not measured. {}; it may lie {} points lower or "
                             "higher (95 of 100), "
                             "and the water with it: watch the first dough",
                             card.flour[i].code, input.lots[i].start->words,
                             fixed(interval * input.lots[i].start->sd, 1)));
    if (water.offset_origin == Origin::assumed)
        warn(card, CautionKind::estimate, CautionAt::water,
             fmt::format("The product's {} points against the farinograph are assumed until its own batches "
                         "are scored",
                         fixed(water.dough.offset.value(), 1)));
}

/// No ice can be had: what is possible instead, in figures.
std::string without_ice(const CardInput& input, const CardTemperature& temperature, const DoughHeat& dough) {
    const double too_much = temperature.mix.too_warm.value() * dough.mass().value() * dough.heat(); // kJ
    const auto& flour = dough.parts.front();
    const auto& house = input.units;
    const CelsiusStep cooler{too_much / (flour.mass.value() * flour.heat)};
    auto words = fmt::format(
        "Water of {} would be needed, the line's coldest is {} and it has no ice: the dough will be {}, {} "
        "too "
        "warm. Instead: flour {} cooler, a cooler room, a smaller batch or shorter mixing",
        house.with_unit(temperature.mix.needed), house.with_unit(temperature.mix.water_temperature),
        house.with_unit(input.product.dough_temperature + temperature.mix.too_warm),
        house.with_unit(temperature.mix.too_warm), house.with_unit(cooler));
    if (dough.mixing_kj_per_kg > 0)
        words += fmt::format(" ({} of {} kJ/kg less)", fixed(too_much / dough.mass().value(), 1),
                             fixed(dough.mixing_kj_per_kg, 1));
    return words;
}

void warn_of_cold(const CardInput& input, const CardWater& water, const CardTemperature& temperature,
                  const DoughHeat& dough, Card& card) {
    const bool has_ice = input.line.most_ice > 0;
    if (temperature.mix.is_capped && has_ice)
        warn(card, CautionKind::process, CautionAt::water,
             fmt::format("{} of ice would be needed, the line takes {}: the dough will be {} too warm",
                         input.units.with_unit(temperature.mix.ice_needed), input.units.with_unit(water.ice),
                         input.units.with_unit(temperature.mix.too_warm)));
    if (temperature.mix.is_capped && !has_ice)
        warn(card, CautionKind::process, CautionAt::water, without_ice(input, temperature, dough));
    if (water.ice.value() > 0)
        warn(card, CautionKind::process, CautionAt::water,
             "Flake or crushed ice only, melted well before the end of mixing");
}

/// The factor method knows room and flour alone.
void warn_of_cold_ingredients(const CardInput& input, const CardTemperature& temperature, Card& card) {
    if (temperature.method != TemperatureMethod::factors)
        return;
    for (const auto& ingredient : card.ingredients)
        if (ingredient.temperature && ingredient.water.value() > 0)
            warn(card, CautionKind::estimate, CautionAt::water,
                 fmt::format("{} goes in at {}, which the factor method does not count: measure the first "
                             "dough, or enter the line's mixing energy",
                             ingredient.name, input.units.with_unit(*ingredient.temperature)));
}

void warn_of_heat(const CardInput& input, const CardTemperature& temperature, Card& card) {
    if (temperature.method == TemperatureMethod::factors && input.line.friction_factor.value() == 0)
        warn(card, CautionKind::estimate, CautionAt::water,
             "The line's friction factor is not set: measure it on the first batch");
    if (input.mixing && input.mixing->batches == 0)
        warn(card, CautionKind::estimate, CautionAt::water,
             fmt::format(
                 "The heat of mixing is that of other products on this mixer: the dough comes to within {} "
                 "in 80 of 100, until this one's first is measured",
                 input.units.with_unit(temperature.give_or_take)));
}

/// What holds before any batch, with the doubt of that.
WaterLearned before_any_batch(const CardInput& input, const Card& card) {
    WaterBelief belief;
    belief.expect(input.product.id, input.product.water_offset, input.product.is_offset_assumed);
    std::vector<LotShare> shares;
    for (const auto& flour : card.flour)
        shares.push_back({flour.lot, flour.share});
    return belief.predict(input.product.id, input.line.id, shares, input.run.day);
}

std::vector<WaterLot> water_lots(const CardInput& input, const Card& card) {
    std::vector<WaterLot> lots;
    for (std::size_t i = 0; i < input.lots.size(); ++i) {
        WaterLot lot{fmt::format("Lot {}", card.flour[i].code), &input.lots[i].lot->certificate,
                     to_kilograms(card.flour[i].mass), std::nullopt};
        if (is_guessed(input.lots[i]))
            lot.absorption = input.lots[i].start->absorption;
        lots.push_back(std::move(lot));
    }
    return lots;
}

Origin offset_origin(const CardInput& input) {
    const bool is_scored = input.water_learned && input.water_learned->batches > 0;
    return is_scored || !input.product.is_offset_assumed ? Origin::measured : Origin::assumed;
}

CardWater water_of(const CardInput& input, const Card& card, const DoughWater& dough,
                   const WaterLearned& learned) {
    CardWater water;
    water.dough = dough;
    water.offset_origin = offset_origin(input);
    water.stock_solution = stock_water(card);
    for (const auto& ingredient : card.ingredients)
        water.ingredients += ingredient.water;
    water.batches = learned.batches;
    double variance = learned.sd * learned.sd;
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        if (is_guessed(input.lots[i])) {
            const auto& start = *input.lots[i].start;
            variance += squared(card.flour[i].share * start.sd);
            water.guessed.push_back(start);
        }
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        if (const auto& drift = input.lots[i].drift)
            variance += squared(card.flour[i].share * drift->sd *
                                points_of_moisture(dough.target, *input.lots[i].lot->certificate.moisture()));
    water.sd = std::sqrt(variance);
    return water;
}

/// What goes in beside the water of the line is already all that the dough takes, or more.
std::optional<Refusal> too_wet_without_water(const CardInput& input, const CardWater& water) {
    const auto exact = input.units.with_unit(water.dough.exact);
    if (water.dough.exact <= water.ingredients)
        return Refusal{"Water",
                       fmt::format("the ingredients bring {} of water, the dough takes {} in all",
                                   input.units.with_unit(water.ingredients), exact),
                       "Correct the product's ingredients, or its water against the farinograph"};
    if (water.dough.exact > water.ingredients + water.stock_solution)
        return {};
    if (water.ingredients.value() <= 0)
        return Refusal{"Water", "the stock solution alone is more water than the dough takes",
                       "Use a stronger solution, or weigh the oxidant"};
    return Refusal{"Water",
                   fmt::format("ingredients and stock solution bring {} of water, the dough takes {} in all",
                               input.units.with_unit(water.ingredients + water.stock_solution), exact),
                   "Use a stronger solution, or weigh the oxidant"};
}

} // namespace

void pour_water(const CardInput& input, Card& card) {
    const auto learned = input.water_learned.value_or(before_any_batch(input, card));
    const auto dough = dough_water(water_lots(input, card), learned.offset, input.water_correction,
                                   input.line.water_step_kg, learned.deviation);
    if (!dough) {
        card.water = dough.refusals();
        card.temperature = Refusal{"Water temperature", "not known while the water is not", ""};
        return;
    }
    auto water = water_of(input, card, *dough, learned);
    if (auto refusal = too_wet_without_water(input, water)) {
        card.water = *std::move(refusal);
        return;
    }
    const auto poured = water.dough.exact - water.ingredients;
    const auto heat = heat_of(input, card, poured);
    const auto temperature =
        set_temperature(input, heat, flour_temperature(input, card), poured - water.stock_solution);
    tell(input.line, temperature, water);
    warn_of_absorption(input, water, card);
    ask_for_moisture(input, water, card);
    warn_of_cold(input, water, temperature, heat, card);
    warn_of_heat(input, temperature, card);
    warn_of_cold_ingredients(input, temperature, card);
    card.dough = to_kilograms(card.batch_flour) + water.told + water.ice + water.stock_solution;
    for (const auto& ingredient : card.ingredients)
        *card.dough += ingredient.mass;
    card.water = std::move(water);
    card.temperature = temperature;
}

} // namespace mellowbin::dough::parts
