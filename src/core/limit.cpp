#include "core/limit.h"

#include <array>

namespace mellowbin {
namespace {

struct SubstanceNames {
    Substance substance;
    std::string_view key;
    std::string_view name;
};

constexpr std::array substances{
    SubstanceNames{Substance::ascorbic_acid, "ascorbic_acid", "Ascorbic acid"},
    SubstanceNames{Substance::azodicarbonamide, "azodicarbonamide", "Azodicarbonamide"},
    SubstanceNames{Substance::potassium_bromate, "potassium_bromate", "Potassium bromate"},
    SubstanceNames{Substance::calcium_bromate, "calcium_bromate", "Calcium bromate"},
    SubstanceNames{Substance::potassium_iodate, "potassium_iodate", "Potassium iodate"},
    SubstanceNames{Substance::calcium_iodate, "calcium_iodate", "Calcium iodate"},
    SubstanceNames{Substance::calcium_peroxide, "calcium_peroxide", "Calcium peroxide"},
    SubstanceNames{Substance::ammonium_persulphate, "ammonium_persulphate", "Ammonium persulphate"},
    SubstanceNames{Substance::potassium_persulphate, "potassium_persulphate", "Potassium persulphate"},
    SubstanceNames{Substance::benzoyl_peroxide, "benzoyl_peroxide", "Benzoyl peroxide"},
    SubstanceNames{Substance::l_cysteine, "l_cysteine", "L-Cysteine"},
    SubstanceNames{Substance::l_cysteine_hydrochloride, "l_cysteine_hydrochloride",
                   "L-Cysteine hydrochloride"},
    SubstanceNames{Substance::glucose_oxidase, "glucose_oxidase", "Glucose oxidase"},
};

struct FoodNames {
    FoodClass food;
    std::string_view key;
};

constexpr std::array foods{
    FoodNames{FoodClass::white_flour, "white_flour"},
    FoodNames{FoodClass::whole_wheat_flour, "whole_wheat_flour"},
    FoodNames{FoodClass::bread, "bread"},
    FoodNames{FoodClass::whole_wheat_bread, "whole_wheat_bread"},
};

constexpr auto substance_list = [] {
    std::array<Substance, substances.size()> list{};
    for (std::size_t i = 0; i < list.size(); ++i)
        list[i] = substances[i].substance;
    return list;
}();

} // namespace

std::string_view key_of(Substance substance) { return substances[static_cast<std::size_t>(substance)].key; }
std::string_view name_of(Substance substance) { return substances[static_cast<std::size_t>(substance)].name; }

std::optional<Substance> substance_from_key(std::string_view key) {
    for (const auto& row : substances)
        if (row.key == key)
            return row.substance;
    return {};
}

std::span<const Substance> all_substances() { return substance_list; }

std::string_view key_of(FoodClass food) { return foods[static_cast<std::size_t>(food)].key; }

std::optional<FoodClass> food_class_from_key(std::string_view key) {
    for (const auto& row : foods)
        if (row.key == key)
            return row.food;
    return {};
}

} // namespace mellowbin
