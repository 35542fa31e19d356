#pragma once

#include "core/plant.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// A plant as its people describe it: whom they buy from, what, where it lies, what they bake on which line,
/// and what they chose otherwise than the program does. Names tie the records together; the book gives the
/// numbers.
struct PlantDescription {
    struct Baked {
        Product product; ///< its flours are given by name
        std::string flour;
        std::string second_flour = {}; ///< empty: there is none
        friend bool operator==(const Baked&, const Baked&) = default;
    };
    std::string plant; ///< the plant's name
    std::vector<Mill> mills;
    std::vector<Flour> flours;
    std::vector<Place> places;
    std::vector<Line> lines;
    std::vector<Baked> products;
    std::vector<std::string> door_checks; ///< what is asked of a delivery, a "yes" is well; none: the usual
    /// The laboratory's own error of one test by the property's key, as its setting has it; none: as
    /// published.
    std::map<std::string, std::string> test_errors;
    std::map<std::string, std::string> settings; ///< other choices by key, as text
    friend bool operator==(const PlantDescription&, const PlantDescription&) = default;
};

/// Reads a plant file (JSON; its fields are described in the README). Every fault is named by its path in the
/// file ("products[2].windows[0].low"), all at once.
Result<PlantDescription> read_plant_file(std::string_view json);

/// Writes one that reads back as the same plant. What is as it is where nobody says is left out.
std::string write_plant_file(const PlantDescription& plant);

} // namespace mellowbin::exchange
