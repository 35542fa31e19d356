#include "core/plant_field.h"

#include "core/plant_mapping.h"
#include "core/typed_text.h"

#include <array>

namespace mellowbin {
namespace {

constexpr std::array window_members{
    FieldWord{"property", "property"},
    FieldWord{"low", "lowest"},
    FieldWord{"high", "highest"},
    FieldWord{"method", "method"},
};
constexpr std::array climate_members{
    FieldWord{"from", "from"},
    FieldWord{"temperature_c", "temperature"},
};
constexpr std::array ingredient_members{
    FieldWord{"name", "name"},
    FieldWord{"percent_of_flour", "amount"},
    FieldWord{"water_percent", "water"},
    FieldWord{"temperature_c", "temperature"},
};
constexpr std::array flour_lists{PlantList{"windows", "Specification", window_members}};
constexpr std::array place_lists{PlantList{"climate", "Climate", climate_members}};
constexpr std::array product_lists{
    PlantList{"windows", "Specification", window_members},
    PlantList{"second_flour.windows", "Second flour's specification", window_members},
    PlantList{"ingredients", "Ingredient", ingredient_members},
};

struct KindTraits {
    PlantKind kind;
    std::string_view key, name, many;
};
constexpr std::array kinds{
    KindTraits{PlantKind::mill, "mills", "Mill", "Mills"},
    KindTraits{PlantKind::flour, "flours", "Flour", "Flours"},
    KindTraits{PlantKind::place, "places", "Place", "Places"},
    KindTraits{PlantKind::line, "lines", "Line", "Lines"},
    KindTraits{PlantKind::product, "products", "Product", "Products"},
};
constexpr std::array kind_values{PlantKind::mill, PlantKind::flour, PlantKind::place, PlantKind::line,
                                 PlantKind::product};

const KindTraits& traits(PlantKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

template <class Record> std::vector<PlantField> fields_of(std::span<const MappedField<Record>> mapped) {
    std::vector<PlantField> fields;
    for (const auto& one : mapped)
        fields.push_back(one.field);
    return fields;
}

} // namespace

std::string_view key_of(PlantKind kind) { return traits(kind).key; }
std::string_view name_of(PlantKind kind) { return traits(kind).name; }
std::string_view many_of(PlantKind kind) { return traits(kind).many; }
std::span<const PlantKind> all_plant_kinds() { return kind_values; }

std::optional<PlantKind> plant_kind_named(std::string_view name) {
    for (const auto& one : kinds)
        if (same_words(one.name, name) || same_words(one.many, name) || one.key == name)
            return one.kind;
    return {};
}

std::vector<PlantField> plant_fields(PlantKind kind) {
    switch (kind) {
    case PlantKind::mill:
        return fields_of(mapped_fields(static_cast<const Mill*>(nullptr)));
    case PlantKind::flour:
        return fields_of(mapped_fields(static_cast<const Flour*>(nullptr)));
    case PlantKind::place:
        return fields_of(mapped_fields(static_cast<const Place*>(nullptr)));
    case PlantKind::line:
        return fields_of(mapped_fields(static_cast<const Line*>(nullptr)));
    case PlantKind::product:
        break;
    }
    return fields_of(mapped_fields(static_cast<const Product*>(nullptr)));
}

std::span<const PlantList> plant_lists(PlantKind kind) {
    switch (kind) {
    case PlantKind::flour:
        return flour_lists;
    case PlantKind::place:
        return place_lists;
    case PlantKind::product:
        return product_lists;
    case PlantKind::mill:
    case PlantKind::line:
        break;
    }
    return {};
}

} // namespace mellowbin
