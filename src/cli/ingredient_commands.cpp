#include "app/acts/ingredients.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/settings.h"
#include "cli/dough_as_text.h"
#include "cli/grammar.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct IngredientsTyped {
    std::string product;
    std::vector<std::string> set, off;
};

/// NAME=AMOUNT, then water and temperature where they are told, each behind a colon.
IngredientDraft ingredient_of(const std::string& words) {
    const auto equals = words.rfind('=');
    if (equals == std::string::npos)
        throw Failed{
            fmt::format("Ingredient: \"{}\" was read; NAME=AMOUNT:WATER:TEMPERATURE is expected, such "
                        "as \"Whole egg=12:usual:4\"",
                        words)};
    IngredientDraft draft;
    draft.name = words.substr(0, equals);
    std::array<std::string*, 3> figures{&draft.percent, &draft.water, &draft.temperature};
    std::string rest = words.substr(equals + 1);
    for (std::size_t i = 0; i < figures.size(); ++i) {
        const auto colon = rest.find(':');
        *figures[i] = rest.substr(0, colon);
        if (colon == std::string::npos)
            return draft;
        rest.erase(0, colon + 1);
    }
    throw Failed{
        fmt::format("Ingredient: \"{}\" was read; it has more than amount, water and temperature", words)};
}

const DoughRow& dough_of(const App& app, const std::string& product) {
    const auto& doughs = app.settings().doughs.doughs;
    const auto at = std::find_if(doughs.begin(), doughs.end(),
                                 [&](const DoughRow& dough) { return dough.product == product; });
    if (at == doughs.end())
        throw Failed{fmt::format("Product: \"{}\" is not in the book", product)};
    return *at;
}

int change_ingredients(Session& session, const IngredientsTyped& typed) {
    App app(session.set_up());
    auto rows = dough_of(app, typed.product).ingredients;
    const auto row_of = [&](const std::string& name) {
        return std::find_if(rows.begin(), rows.end(),
                            [&](const IngredientDraft& row) { return same_words(row.name, name); });
    };
    for (const auto& name : typed.off) {
        const auto row = row_of(name);
        if (row == rows.end())
            throw Failed{fmt::format("Ingredient: \"{}\" is not in {}", name, typed.product)};
        rows.erase(row);
    }
    for (const auto& words : typed.set) {
        auto draft = ingredient_of(words);
        const auto row = row_of(draft.name);
        if (row == rows.end())
            rows.push_back(std::move(draft));
        else
            *row = std::move(draft);
    }
    app.handle(ChangeIngredients{typed.product, rows});
    return session.told(app);
}

int show_ingredients(Session& session, const IngredientsTyped& typed) {
    const App app(session.set_up());
    const auto& model = app.settings().doughs;
    if (typed.product.empty()) {
        if (session.wants_json())
            session.out() << usual_as_json(model);
        else
            print_usual(session.out(), model);
        return done;
    }
    const auto& dough = dough_of(app, typed.product);
    if (session.wants_json())
        session.out() << ingredients_as_json(dough, model);
    else
        print_ingredients(session.out(), dough, model);
    return done;
}

} // namespace

void add_ingredient_commands(Grammar& grammar) {
    auto show = grammar.command("ingredients",
                                "What goes into a product's dough; without one the ready figures of water",
                                show_ingredients);
    show.words.option("product", show.typed.product);

    auto change = grammar.command(
        "change-ingredients", "What goes into a product's dough beside flour and water", change_ingredients);
    change.words.option("product", change.typed.product).required();
    change.words
        .option("--set", change.typed.set,
                "NAME=AMOUNT:WATER:TEMPERATURE, % of flour, % of its mass or usual, in the house's "
                "unit; once an ingredient")
        .one_at_a_time();
    change.words.option("--off", change.typed.off, "The name of one that goes in no more").one_at_a_time();
}

} // namespace mellowbin::cli
