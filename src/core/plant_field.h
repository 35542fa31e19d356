#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

/// What a plant is made of, field by field: what a plant file says of it and what its forms ask for.
namespace mellowbin {

enum class PlantKind { mill, flour, place, line, product };
std::string_view key_of(PlantKind kind);  ///< its list in a plant file: "mills"
std::string_view name_of(PlantKind kind); ///< "Mill"
std::string_view many_of(PlantKind kind); ///< "Mills"
std::span<const PlantKind> all_plant_kinds();
/// By its name or its key.
std::optional<PlantKind> plant_kind_named(std::string_view name);

/// A record of the plant, by kind and number; number 0: one that is not in the book yet.
struct PlantRef {
    PlantKind kind{};
    std::int64_t number = 0;
    friend auto operator<=>(const PlantRef&, const PlantRef&) = default;
};

enum class FieldShape {
    words,
    number,
    whole,  ///< number
    one_of, ///< its words
    yes_no,
    flour,  ///< a flour's name
    market, ///< a market's key
};

/// One of the words that a field takes.
struct FieldWord {
    std::string_view key;  ///< in a plant file
    std::string_view name; ///< on screen
};

/// A field of a record.
struct PlantField {
    std::string_view key;       ///< in a plant file; a dot leads into an object of its own
    std::string_view label;     ///< on screen, and in what is refused
    std::string_view head = {}; ///< under which it stands on screen
    FieldShape shape{};
    std::string_view unit = {};
    double low = 0, high = 0;        ///< of a number, both included, as a plant file has it
    double shown = 1;                ///< the number on screen: so many times that of the file (a share in %)
    std::string_view otherwise = {}; ///< what it is where nobody says, as on screen; empty: nothing is said
    bool is_required = false;
    std::string_view what = {}; ///< what it does, in a few words
    std::span<const FieldWord> words = {};
};

/// In the order a form asks for them.
std::vector<PlantField> plant_fields(PlantKind kind);

/// A list that belongs to a record: its rows have fields of their own.
struct PlantList {
    std::string_view key;   ///< in a plant file: "windows"
    std::string_view label; ///< "Specification"; its second row is refused as "Specification 2, lowest"
    std::span<const FieldWord> members;
};
std::span<const PlantList> plant_lists(PlantKind kind);

} // namespace mellowbin
