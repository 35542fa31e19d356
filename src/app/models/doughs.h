#pragma once

#include "core/id.h"
#include "core/ingredient.h"

#include <string>
#include <vector>

namespace mellowbin::app {

/// A product's ingredients, as they are typed in the units of the house.
struct DoughRow {
    ProductId id;
    std::string product;
    std::vector<IngredientDraft> ingredients;
    std::string
        water_words; ///< "The ingredients bring 9.1 % of water on the flour"; empty: none of them does
    std::string changed = {}; ///< "04:12, Ines": the product, by another station, last
};

/// A ready figure.
struct UsualRow {
    std::string name;
    std::string water; ///< "76.2"
    std::string words; ///< "76.2 % water (74 to 77)"
    std::string source;
};

struct DoughsModel {
    std::vector<DoughRow> doughs;
    std::vector<UsualRow> usual;
    std::string temperature_unit = "°C";
};

struct Station;

DoughsModel make_doughs(const Station& station);

} // namespace mellowbin::app
