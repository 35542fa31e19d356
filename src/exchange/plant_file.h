#pragma once

#include "core/plant.h"

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// A plant as its people describe it: whom they buy from, what, where it lies, what they bake on which line.
/// Names tie the records together; the book gives the numbers.
struct PlantDescription {
    struct Baked {
        Product product; ///< its flours are given by name
        std::string flour;
        std::string second_flour = {}; ///< empty: there is none
    };
    std::string plant; ///< the plant's name
    std::vector<Mill> mills;
    std::vector<Flour> flours;
    std::vector<Place> places;
    std::vector<Line> lines;
    std::vector<Baked> products;
};

/// Reads a plant file (JSON; its fields are described in the README). Every fault is named by its path in the
/// file
/// ("products[2] Pan bread: windows[0]"), all at once.
Result<PlantDescription> read_plant_file(std::string_view json);

} // namespace mellowbin::exchange
