#include "app/models/doughs.h"

#include "app/book/book.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "core/decimal.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

DoughRow row_of(const Product& product, const HouseUnits& house) {
    DoughRow row{product.id, product.name, {}, ""};
    for (const auto& ingredient : product.ingredients)
        row.ingredients.push_back(as_typed(ingredient, house));
    if (const double water = beside_flour(product.ingredients).water_percent; water > 0)
        row.water_words = fmt::format(
            "The ingredients bring {} % of water on the flour; so much less is poured", fixed(water, 1));
    return row;
}

UsualRow row_of(const UsualIngredient& usual) {
    return {usual.name, fmt::format("{:g}", usual.water_percent),
            usual.low < usual.high
                ? fmt::format("{:g} % water ({:g} to {:g})", usual.water_percent, usual.low, usual.high)
                : fmt::format("{:g} % water", usual.water_percent),
            usual.source};
}

} // namespace

DoughsModel make_doughs(const Station& s) {
    const HouseUnits house = house_units(s.book.settings);
    DoughsModel model;
    model.temperature_unit = house.temperature();
    for (const auto& product : s.book.products) {
        if (product.is_retired)
            continue;
        model.doughs.push_back(row_of(product, house));
        model.doughs.back().changed = s.changed_elsewhere(record_of(product.id));
    }
    for (const auto& usual : usual_ingredients())
        model.usual.push_back(row_of(usual));
    return model;
}

} // namespace mellowbin::app
