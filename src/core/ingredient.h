#pragma once

#include "core/house_units.h"
#include "core/quantity.h"
#include "core/result.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// An ingredient other than flour and water, as baker's percent: kg per 100 kg of flour.
struct Ingredient {
    std::string name;
    double percent_of_flour = 0;
    double water_percent = 0;                ///< of its own mass: the dough's water counts it, 0 to 100
    std::optional<Celsius> temperature = {}; ///< as it goes in; nothing: the room's
    friend bool operator==(const Ingredient&, const Ingredient&) = default;
};

/// What goes into a dough beside flour and water, summed up, % of flour.
struct Beside {
    double percent = 0;
    double water_percent = 0; ///< of flour: the water in it
    /// Of that what has a temperature of its own, and that temperature, by what it carries of heat.
    double tempered_percent = 0;
    double tempered_water_percent = 0;
    Celsius tempered{0};
    friend bool operator==(const Beside&, const Beside&) = default;
};
Beside beside_flour(std::span<const Ingredient> ingredients);

/// The water in it, in a dough of so much flour.
Kilograms water_of(const Ingredient& ingredient, Kilograms flour);
/// The same of all of them.
Kilograms water_of(std::span<const Ingredient> ingredients, Kilograms flour);

/// Specific heat of an ingredient by its water, kJ/(kg K): what is dry in it counts as flour (an assumption).
double specific_heat(double water_percent);

/// What of the water a dough gets is counted otherwise, points on flour, though the same goes in: ingredients
/// that are in both formulas, by name, with another water.
double counted_otherwise(std::span<const Ingredient> before, std::span<const Ingredient> after);

/// Every reason why this is no list of ingredients: a name that is missing or there twice, an amount, a water
/// or a temperature that cannot be, more water in all than any dough takes.
Refusals why_not(std::span<const Ingredient> ingredients);

/// An ingredient as typed.
struct IngredientDraft {
    std::string name;
    std::string percent;     ///< of flour
    std::string water;       ///< % of its mass; empty: 0; "usual": as the table of usual ingredients has it
    std::string temperature; ///< in the house's unit; empty: the room's
    friend bool operator==(const IngredientDraft&, const IngredientDraft&) = default;
};
/// A line without anything typed is none.
Result<std::vector<Ingredient>> accept_ingredients(std::span<const IngredientDraft> rows,
                                                   const HouseUnits& house);
IngredientDraft as_typed(const Ingredient& ingredient, const HouseUnits& house);

/// A ready figure, from literature.
struct UsualIngredient {
    std::string name;
    double water_percent = 0;
    double low = 0, high = 0; ///< that are met
    std::string source;       ///< with how the figure was come by
};
const std::vector<UsualIngredient>& usual_ingredients();
/// Null: the table has none of this name, whatever the case.
const UsualIngredient* usual_ingredient(std::string_view name);
/// The water that "usual" stands for; a refusal that lists the names where the table has no such ingredient.
Result<double> usual_water(std::string_view field, std::string_view name);

} // namespace mellowbin
