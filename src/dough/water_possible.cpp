#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/water.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::dough {
namespace {

namespace lit = literature;

constexpr double boils = 100;      // °C
constexpr double last_bits = 1e-6; // kg: not worth a word

Kilograms water_at(const DoughWater& dough, double absorption) {
    return dough.flour_at_14 * ((100 + absorption) / 100) - dough.flour;
}

std::optional<Refusal> absurd_water(const WaterGiven& given, const DoughWater& dough,
                                    const HouseUnits& house) {
    const double least = lit::dough_water_least.value;
    const double most = lit::dough_water_most.value;
    const auto poured = [&](Kilograms all) { return std::max(Kilograms{0}, all - given.ingredients); };
    const auto aim = fmt::format("This dough is to have {}, {} % on the flour",
                                 house.with_unit(poured(dough.exact)), fixed(dough.target.value(), 1));
    if (given.all.value() < 0)
        return Refusal{"Water", house.with_unit(given.all) + " was read; water cannot be below 0", aim};
    const auto absorption = dough.absorption_with(given.all + given.ingredients).value();
    if (absorption >= least && absorption <= most)
        return {};
    return Refusal{"Water",
                   fmt::format("{} was read, {}{} % on the flour; a dough takes {} to {} %, here {} to {}",
                               house.with_unit(given.all),
                               given.ingredients.value() > 0 ? fmt::format("with {} in ingredients ",
                                                                           house.with_unit(given.ingredients))
                                                             : "",
                               fixed(absorption, 1), fixed(least, 0), fixed(most, 0),
                               house.with_unit(poured(water_at(dough, least))),
                               house.with_unit(poured(water_at(dough, most)))),
                   aim};
}

std::optional<Refusal> impossible_ice(const WaterGiven& given, const ColdSource& cold,
                                      const HouseUnits& house) {
    if (given.ice.value() < 0)
        return Refusal{"Ice", house.with_unit(given.ice) + " was read; ice cannot be below 0",
                       "Enter 0 for no ice"};
    if (given.ice.value() > std::max(0.0, given.all.value()) + last_bits)
        return Refusal{"Ice",
                       fmt::format("{} was read, more than all the water, {}", house.with_unit(given.ice),
                                   house.with_unit(given.all)),
                       "Ice counts as water: enter both so that together they are the dough's"};
    const auto most = given.all * cold.most_ice;
    if (given.ice.value() <= std::max(0.0, most.value()) + last_bits)
        return {};
    if (cold.most_ice <= 0)
        return Refusal{"Ice", house.with_unit(given.ice) + " was read; the line takes no ice",
                       "Cooler flour, a smaller batch or shorter mixing keeps the dough cool"};
    return Refusal{
        "Ice",
        fmt::format("{} was read; the line takes up to {} % of the water, {}", house.with_unit(given.ice),
                    fixed(100 * cold.most_ice, 0), house.with_unit(most)),
        fmt::format("Give {} of ice and the rest as water; the dough gets warmer", house.with_unit(most))};
}

std::optional<Refusal> impossible_temperature(Celsius temperature, const ColdSource& cold,
                                              const HouseUnits& house) {
    const auto coldest = std::min(cold.tap, cold.coldest);
    if (temperature.value() > boils)
        return Refusal{"Water temperature",
                       house.with_unit(temperature) + " was read; water is liquid up to " +
                           house.with_unit(Celsius{boils}, 0),
                       "Enter the water's temperature"};
    if (temperature.value() >= coldest.value())
        return {};
    const auto read = fmt::format("{} was read; the line's coldest water is {}", house.with_unit(temperature),
                                  house.with_unit(coldest));
    if (cold.most_ice > 0)
        return Refusal{"Water temperature", read,
                       fmt::format("Give water of {} and ice, up to {} % of it", house.with_unit(coldest),
                                   fixed(100 * cold.most_ice, 0))};
    return Refusal{"Water temperature", read,
                   fmt::format("Give water of {}; cooler flour, a smaller batch or shorter mixing keeps the "
                               "dough cool",
                               house.with_unit(coldest))};
}

} // namespace

Result<Done> possible_water(const WaterGiven& given, const DoughWater& dough, const ColdSource& cold,
                            const HouseUnits& house) {
    Refusals refusals;
    const auto add = [&refusals](std::optional<Refusal> refusal) {
        if (refusal)
            refusals.push_back(*std::move(refusal));
    };
    add(absurd_water(given, dough, house));
    add(impossible_ice(given, cold, house));
    if (given.temperature)
        add(impossible_temperature(*given.temperature, cold, house));
    if (!refusals.empty())
        return refusals;
    return Done{};
}

} // namespace mellowbin::dough
