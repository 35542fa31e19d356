#include "app/acts/ingredients.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "app/book/settings.h"
#include "core/decimal.h"
#include "db/plant_store.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::app {
namespace {

/// The newest dough of the product whose water is known, as far as the book holds it.
const Batch* newest_dough(const Book& book, ProductId product) {
    const Batch* newest = nullptr;
    for (const auto& batch : book.batches) {
        const Run* run = book.run(batch.run);
        if (run && run->product == product && !batch.is_countered && batch.absorption)
            newest = &batch;
    }
    return newest;
}

/// What the product's dough took of water in all, as it is counted now, is more than ingredients can bring.
Refusals more_than_a_dough(const Book& book, const Product& before, const Product& after) {
    const Batch* dough = newest_dough(book, before.id);
    if (!dough)
        return {};
    const double water = beside_flour(after.ingredients).water_percent;
    const double taken =
        dough->absorption->value() + counted_otherwise(before.ingredients, after.ingredients);
    if (water < taken)
        return {};
    return {{"Ingredients",
             fmt::format("they bring {} % of water on the flour; the newest dough took {} % in all",
                         fixed(water, 1), fixed(taken, 1)),
             "Check the amounts and the water of each"}};
}

/// The same dough as before, of which more of the water is counted now: what its batches taught stands, so
/// that as much water is poured as was.
void keep_what_was_taught(const State& s, const Product& before, Product& after) {
    const double points = counted_otherwise(before.ingredients, after.ingredients);
    if (points == 0 || !s.doughs.water().knows(before.id))
        return;
    // Of no line: what is learned of lines comes on top of it, as before.
    const auto learned = s.doughs.water().predict(before.id, LineId{}, {}, s.today());
    after.water_offset = learned.offset + AbsorptionPoints{points};
    after.is_offset_assumed = learned.is_assumed;
}

std::string in_words(const State& s, const Product& before, const Product& after) {
    const HouseUnits house = house_units(s.book.settings);
    std::string words;
    for (const auto& one : after.ingredients) {
        words += fmt::format("{}{} {:g} %", words.empty() ? "" : ", ", one.name, one.percent_of_flour);
        if (one.water_percent > 0)
            words += fmt::format(" ({:g} % water{})", one.water_percent,
                                 one.temperature ? " at " + house.with_unit(*one.temperature) : "");
        else if (one.temperature)
            words += fmt::format(" (at {})", house.with_unit(*one.temperature));
    }
    words =
        fmt::format("{}: {}", after.name, words.empty() ? "no ingredients beside flour and water" : words);
    if (after.water_offset != before.water_offset)
        words += fmt::format("; its water against the farinograph is counted as {:+.1f} points, with what "
                             "the ingredients bring",
                             after.water_offset.value());
    return words;
}

Result<Product> changed(const State& s, const Product& product, const ChangeIngredients& act) {
    Product after = product;
    if (act.before) {
        after.ingredients = act.before->ingredients;
        after.water_offset = act.before->water_offset;
        after.is_offset_assumed = act.before->is_offset_assumed;
        return accept_product(std::move(after));
    }
    auto ingredients = accept_ingredients(act.rows, house_units(s.book.settings));
    if (!ingredients)
        return ingredients.refusals();
    after.ingredients = *std::move(ingredients);
    if (auto refusals = more_than_a_dough(s.book, product, after); !refusals.empty())
        return refusals;
    keep_what_was_taught(s, product, after);
    return accept_product(std::move(after));
}

} // namespace

Result<Told> carry_out(State& state, const ChangeIngredients& act) {
    Refusals refusals;
    const Product* product = named(state.book.products, "Product", act.product, refusals);
    if (!product)
        return refusals;
    const auto after = changed(state, *product, act);
    if (!after)
        return after.refusals();
    if (*after == *product)
        return Told{fmt::format("{}: nothing was changed", product->name)};
    const auto words = in_words(state, *product, *after);
    const ChangeIngredients undo{
        product->name,
        {},
        ChangeIngredients::Before{product->ingredients, product->water_offset, product->is_offset_assumed}};
    Change change = state.change("change_ingredients", subject_of(*product), words);
    const auto id = PlantStore(*state.connection).save(change, *after);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: as it was", {undo}};
}

} // namespace mellowbin::app
