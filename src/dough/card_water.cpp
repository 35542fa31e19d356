#include "core/decimal.h"
#include "dough/card_parts.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace mellowbin::dough::parts {
namespace {

constexpr double grams_per_kilogram = 1000;

double to_step(double value, double step) { return std::round(value / step) * step; }

Celsius flour_temperature(const CardInput& input, const Card& card) {
    double mean = 0;
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        mean += card.flour[i].share * input.lots[i].temperature.value();
    return Celsius{mean};
}

DoughHeat heat_of(const CardInput& input, const Card& card, Kilograms water) {
    DoughHeat dough{input.product.dough_temperature,
                    water,
                    {flour_part(to_kilograms(card.batch_flour), flour_temperature(input, card))},
                    input.line.mixing_energy_kj_per_kg.value_or(0)};
    for (const auto& ingredient : card.ingredients)
        dough.parts.push_back(flour_part(ingredient.mass, input.line.room));
    return dough;
}

Celsius water_needed(const CardInput& input, const DoughHeat& dough, Celsius flour) {
    if (input.line.mixing_energy_kj_per_kg)
        return water_by_heat_balance(dough);
    const std::array others{input.line.room, flour};
    return water_by_factors(input.product.dough_temperature, others, input.line.friction_factor);
}

CardTemperature set_temperature(const CardInput& input, const Card& card, Kilograms all_water,
                                Kilograms from_line) {
    const auto dough = heat_of(input, card, all_water);
    CardTemperature set;
    set.method =
        input.line.mixing_energy_kj_per_kg ? TemperatureMethod::heat_balance : TemperatureMethod::factors;
    set.dough = input.product.dough_temperature;
    set.room = input.line.room;
    set.flour = flour_temperature(input, card);
    set.mix = chill(water_needed(input, dough, set.flour), from_line,
                    {input.line.tap_water, input.line.coldest_water, input.line.most_ice, Celsius{0}}, dough);
    return set;
}

Kilograms stock_water(const Card& card) {
    if (!card.oxidant || !*card.oxidant || !(**card.oxidant).pouring)
        return {};
    return (**card.oxidant).pouring->water;
}

/// Ice to a whole step, never above the cap; the meter's water takes up the difference.
void tell(double step, const CardTemperature& temperature, CardWater& water) {
    const double ice = temperature.mix.ice.value();
    water.ice = Kilograms{temperature.mix.is_capped ? std::floor(ice / step) * step : to_step(ice, step)};
    water.told = Kilograms{to_step((water.dough.exact - water.stock_solution - water.ice).value(), step)};
    water.resulting = water.dough.absorption_with(water.told + water.stock_solution + water.ice);
}

void warn_of_water(const CardInput& input, const CardWater& water, const CardTemperature& temperature,
                   Card& card) {
    if (input.product.is_offset_assumed)
        warn(card, CautionKind::estimate, CautionAt::water,
             fmt::format("The product's {} points against the farinograph are assumed until its own batches "
                         "are scored",
                         fixed(water.dough.offset.value(), 1)));
    if (input.last_run_absorption)
        if (auto words = absorption_jump(water.resulting, *input.last_run_absorption))
            warn(card, CautionKind::process, CautionAt::water, *std::move(words));
    if (temperature.mix.is_capped)
        warn(card, CautionKind::process, CautionAt::water,
             fmt::format("{} kg of ice would be needed, the line takes {}: the dough will be {} °C too warm",
                         fixed(temperature.mix.ice_needed.value(), 1), fixed(water.ice.value(), 1),
                         fixed(temperature.mix.too_warm.value(), 1)));
    if (water.ice.value() > 0)
        warn(card, CautionKind::process, CautionAt::water,
             "Flake or crushed ice only, melted well before the end of mixing");
    if (temperature.method == TemperatureMethod::factors && input.line.friction_factor.value() == 0)
        warn(card, CautionKind::estimate, CautionAt::water,
             "The line's friction factor is not set: measure it on the first batch");
}

} // namespace

void pour_water(const CardInput& input, Card& card) {
    std::vector<WaterLot> lots;
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        lots.push_back({fmt::format("Lot {}", card.flour[i].code), &input.lots[i].lot->certificate,
                        to_kilograms(card.flour[i].mass)});
    const auto dough =
        dough_water(lots, input.product.water_offset, input.water_correction, input.line.water_step_kg);
    if (!dough) {
        card.water = dough.refusals();
        card.temperature = Refusal{"Water temperature", "not known while the water is not", ""};
        return;
    }
    CardWater water;
    water.dough = *dough;
    water.offset_origin = input.product.is_offset_assumed ? Origin::assumed : Origin::measured;
    water.stock_solution = stock_water(card);
    if (water.dough.exact.value() <= water.stock_solution.value()) {
        card.water = Refusal{"Water", "the stock solution alone is more water than the dough takes",
                             "Use a stronger solution, or weigh the oxidant"};
        return;
    }
    const auto temperature =
        set_temperature(input, card, water.dough.exact, water.dough.exact - water.stock_solution);
    tell(input.line.water_step_kg, temperature, water);
    warn_of_water(input, water, temperature, card);
    card.water = water;
    card.temperature = temperature;
}

void keep_bread(const CardInput& input, Card& card) {
    const double percent = input.product.propionate_percent;
    if (percent <= 0)
        return;
    CardKeeping keeping;
    keeping.percent_of_flour = percent;
    keeping.exact_g = to_kilograms(card.batch_flour).value() * percent / 100 * grams_per_kilogram;
    const auto in_bread = propionate_in_bread(PropionateSalt::calcium, percent, input.product.bread_yield);
    if (!in_bread) {
        warn(card, CautionKind::law, CautionAt::bread, mellowbin::in_words(in_bread.refusals().front()));
        return;
    }
    keeping.in_bread = *in_bread;
    keeping.judged =
        judge_propionate(input.propionate_rows, input.law.markets, input.product.market, keeping.in_bread);
    if (input.bread_ph)
        if (const auto share = undissociated_share(*input.bread_ph))
            keeping.undissociated = *share;
    for (const auto& judged : keeping.judged)
        if (judged.keeping != Keeping::permitted)
            warn(card, CautionKind::law, CautionAt::bread, judged.words);
    warn(card, CautionKind::process, CautionAt::bread,
         "Clean first: baking kills spores, the loaf catches new ones while it cools and is sliced");
    card.keeping = std::move(keeping);
}

} // namespace mellowbin::dough::parts
