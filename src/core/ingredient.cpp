#include "core/ingredient.h"

#include "core/decimal.h"
#include "core/ingredient_water_text.h"
#include "core/literature/constants.h"
#include "core/shipped_table.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

namespace mellowbin {
namespace {

constexpr double most_percent = 300; // of flour
/// Below it an ingredient is frozen, and its melting is not counted.
constexpr Celsius coldest{-5};
/// Syrups are kept warm; nothing hotter goes into a dough.
constexpr Celsius hottest{60};

double percent_in(const std::string& cell, int line) {
    const auto read = read_decimal_within("water", cell, {0, 100, "%"});
    if (!read || !*read)
        throw std::logic_error(fmt::format("ingredients, line {}: \"{}\" is no percentage", line, cell));
    return **read;
}

std::vector<UsualIngredient> read_usual() {
    std::vector<UsualIngredient> all;
    for (const auto& [number, cells] : rows_of_table(tables::ingredient_water))
        all.push_back({cells.at(0), percent_in(cells.at(1), number), percent_in(cells.at(2), number),
                       percent_in(cells.at(3), number), cells.at(4) + "; " + cells.at(5)});
    return all;
}

std::string name_in_words(const Ingredient& ingredient, std::size_t at) {
    return ingredient.name.empty() ? fmt::format("Ingredient {}", at + 1)
                                   : fmt::format("Ingredient {}", excerpt(ingredient.name));
}

void check_one(const Ingredient& ingredient, std::size_t at, Refusals& refusals) {
    const auto field = name_in_words(ingredient, at);
    if (trimmed(ingredient.name).empty())
        refusals.push_back({field, "has no name", "Enter what it is called"});
    if (!(ingredient.percent_of_flour >= 0 && ingredient.percent_of_flour <= most_percent))
        refusals.push_back({field,
                            fmt::format("{:g} % of flour was read; from 0 to {:g} % is expected",
                                        ingredient.percent_of_flour, most_percent),
                            "Enter kg for 100 kg of flour"});
    if (!(ingredient.water_percent >= 0 && ingredient.water_percent <= 100))
        refusals.push_back(
            {field,
             fmt::format("a water of {:g} % was read; from 0 to 100 % is expected", ingredient.water_percent),
             "Enter the water in it, % of its own mass"});
    if (ingredient.temperature && !(*ingredient.temperature >= coldest && *ingredient.temperature <= hottest))
        refusals.push_back(
            {field,
             fmt::format("{:g} °C was read; from {:g} to {:g} °C is expected",
                         ingredient.temperature->value(), coldest.value(), hottest.value()),
             "Enter what it has as it goes in; what is frozen is thawed first, for its melting is not "
             "counted"});
}

void check_names(std::span<const Ingredient> ingredients, Refusals& refusals) {
    std::set<std::string> earlier;
    for (std::size_t i = 0; i < ingredients.size(); ++i)
        if (!ingredients[i].name.empty() && !earlier.insert(bare_words(ingredients[i].name)).second)
            refusals.push_back({name_in_words(ingredients[i], i), "stands there twice", "Keep one"});
}

/// One line as typed.
class RowReader {
public:
    RowReader(const IngredientDraft& row, std::size_t at, const HouseUnits& house)
        : row_(row), house_(house) {
        ingredient_.name = trimmed(row.name);
        field_ = name_in_words(ingredient_, at);
    }

    Ingredient read(Refusals& refusals) {
        const auto percent =
            read_required_decimal(field_ + ", amount", row_.percent, {0, most_percent, "% of flour"});
        if (!percent)
            append(refusals, percent.refusals());
        else
            ingredient_.percent_of_flour = *percent;
        const auto water = read_water();
        if (!water)
            append(refusals, water.refusals());
        else
            ingredient_.water_percent = *water;
        ingredient_.temperature =
            house_.read_temperature(field_ + ", temperature", row_.temperature, coldest, hottest, refusals);
        return ingredient_;
    }

private:
    [[nodiscard]] Result<double> read_water() const {
        if (same_words(row_.water, "usual"))
            return usual_water(field_ + ", water", ingredient_.name);
        const auto water = read_decimal_within(field_ + ", water", row_.water, {0, 100, "%"});
        if (!water)
            return water.refusals();
        return water->value_or(0);
    }

    const IngredientDraft& row_;
    const HouseUnits& house_;
    Ingredient ingredient_;
    std::string field_;
};

bool is_blank(const IngredientDraft& row) {
    return trimmed(row.name).empty() && trimmed(row.percent).empty() && trimmed(row.water).empty() &&
           trimmed(row.temperature).empty();
}

} // namespace

Kilograms water_of(const Ingredient& ingredient, Kilograms flour) {
    return flour * (ingredient.percent_of_flour / 100) * (ingredient.water_percent / 100);
}

Kilograms water_of(std::span<const Ingredient> ingredients, Kilograms flour) {
    Kilograms all;
    for (const auto& ingredient : ingredients)
        all += water_of(ingredient, flour);
    return all;
}

double specific_heat(double water_percent) {
    const double water = water_percent / 100;
    return (1 - water) * literature::dough_heat_of_flour.value +
           water * literature::dough_heat_of_water.value;
}

Beside beside_flour(std::span<const Ingredient> ingredients) {
    Beside beside;
    double heat = 0;
    double warmth = 0;
    for (const auto& ingredient : ingredients) {
        const double water = ingredient.percent_of_flour * ingredient.water_percent / 100;
        beside.percent += ingredient.percent_of_flour;
        beside.water_percent += water;
        if (!ingredient.temperature)
            continue;
        beside.tempered_percent += ingredient.percent_of_flour;
        beside.tempered_water_percent += water;
        const double own = ingredient.percent_of_flour * specific_heat(ingredient.water_percent);
        heat += own;
        warmth += own * ingredient.temperature->value();
    }
    if (heat > 0)
        beside.tempered = Celsius{warmth / heat};
    return beside;
}

double counted_otherwise(std::span<const Ingredient> before, std::span<const Ingredient> after) {
    double points = 0;
    for (const auto& was : before)
        for (const auto& is : after)
            if (same_words(was.name, is.name))
                points += was.percent_of_flour * (is.water_percent - was.water_percent) / 100;
    return points;
}

Refusals why_not(std::span<const Ingredient> ingredients) {
    Refusals refusals;
    for (std::size_t i = 0; i < ingredients.size(); ++i)
        check_one(ingredients[i], i, refusals);
    check_names(ingredients, refusals);
    const double water = beside_flour(ingredients).water_percent;
    if (refusals.empty() && water > literature::dough_water_most.value)
        refusals.push_back({"Ingredients",
                            fmt::format("they bring {} % of water on the flour; a dough takes up to {} % in "
                                        "all",
                                        fixed(water, 1), fixed(literature::dough_water_most.value, 0)),
                            "Check the amounts and the water of each"});
    return refusals;
}

Result<std::vector<Ingredient>> accept_ingredients(std::span<const IngredientDraft> rows,
                                                   const HouseUnits& house) {
    std::vector<Ingredient> ingredients;
    Refusals refusals;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (!is_blank(rows[i]))
            ingredients.push_back(RowReader(rows[i], i, house).read(refusals));
    append(refusals, why_not(ingredients));
    if (!refusals.empty())
        return refusals;
    return ingredients;
}

IngredientDraft as_typed(const Ingredient& ingredient, const HouseUnits& house) {
    return {ingredient.name, fmt::format("{:g}", ingredient.percent_of_flour),
            ingredient.water_percent > 0 ? fmt::format("{:g}", ingredient.water_percent) : "",
            ingredient.temperature ? house.words(*ingredient.temperature) : ""};
}

const std::vector<UsualIngredient>& usual_ingredients() {
    static const auto all = read_usual();
    return all;
}

const UsualIngredient* usual_ingredient(std::string_view name) {
    const auto& all = usual_ingredients();
    const auto at = std::find_if(all.begin(), all.end(),
                                 [&](const UsualIngredient& one) { return same_words(one.name, name); });
    return at == all.end() ? nullptr : &*at;
}

Result<double> usual_water(std::string_view field, std::string_view name) {
    if (const auto* usual = usual_ingredient(name))
        return usual->water_percent;
    std::string names;
    for (const auto& one : usual_ingredients())
        names += (names.empty() ? "" : ", ") + one.name;
    return Refusal{std::string(field), fmt::format("no usual water of \"{}\" is known", excerpt(name)),
                   "Enter its water in %, or call it one of: " + names};
}

} // namespace mellowbin
