#include "core/limit.h"

#include "core/typed_text.h"

#include <array>
#include <charconv>

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
    SubstanceNames{Substance::acetone_peroxide, "acetone_peroxide", "Acetone peroxide"},
    SubstanceNames{Substance::l_cysteine, "l_cysteine", "L-Cysteine"},
    SubstanceNames{Substance::l_cysteine_hydrochloride, "l_cysteine_hydrochloride",
                   "L-Cysteine hydrochloride"},
    SubstanceNames{Substance::glucose_oxidase, "glucose_oxidase", "Glucose oxidase"},
};

struct FoodNames {
    FoodClass food;
    std::string_view key, name;
};

constexpr std::array foods{
    FoodNames{FoodClass::white_flour, "white_flour", "White flour"},
    FoodNames{FoodClass::whole_wheat_flour, "whole_wheat_flour", "Whole wheat flour"},
    FoodNames{FoodClass::bread, "bread", "Bread"},
    FoodNames{FoodClass::whole_wheat_bread, "whole_wheat_bread", "Whole wheat bread"},
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
std::string_view name_of(FoodClass food) { return foods[static_cast<std::size_t>(food)].name; }

std::optional<FoodClass> food_class_from_key(std::string_view key) {
    for (const auto& row : foods)
        if (row.key == key)
            return row.food;
    return {};
}

namespace {

struct SoldAsNames {
    SoldAs sold_as;
    std::string_view key, name;
};

constexpr std::array sold_as_names{
    SoldAsNames{SoldAs::prepacked_sliced, "prepacked_sliced", "Prepacked sliced bread, or rye bread"},
    SoldAsNames{SoldAs::prepacked_part_baked, "prepacked_part_baked",
                "Prepacked part-baked or energy-reduced bread, rolls, buns, pitta"},
    SoldAsNames{SoldAs::prepacked_other, "prepacked_other", "Other prepacked bread"},
    SoldAsNames{SoldAs::not_prepacked, "not_prepacked", "Bread that is not prepacked"},
};

constexpr auto sold_as_list = [] {
    std::array<SoldAs, sold_as_names.size()> list{};
    for (std::size_t i = 0; i < list.size(); ++i)
        list[i] = sold_as_names[i].sold_as;
    return list;
}();

struct StatusNames {
    LimitStatus status;
    std::string_view key, name;
};

constexpr std::array statuses{
    StatusNames{LimitStatus::permitted, "permitted", "Permitted up to a figure"},
    StatusNames{LimitStatus::permitted_gmp, "permitted_gmp", "Good manufacturing practice, no figure"},
    StatusNames{LimitStatus::not_permitted, "not_permitted", "Not permitted"},
    StatusNames{LimitStatus::unclear, "unclear", "Unclear: the source does not settle it"},
};

constexpr auto status_list = [] {
    std::array<LimitStatus, statuses.size()> list{};
    for (std::size_t i = 0; i < list.size(); ++i)
        list[i] = statuses[i].status;
    return list;
}();

constexpr std::array<std::string_view, 3> count_keys{"acid", "salt", "not_stated"};

} // namespace

std::string_view key_of(LimitStatus status) { return statuses[static_cast<std::size_t>(status)].key; }
std::string_view name_of(LimitStatus status) { return statuses[static_cast<std::size_t>(status)].name; }

std::optional<LimitStatus> limit_status_from_key(std::string_view key) {
    for (const auto& row : statuses)
        if (row.key == key)
            return row.status;
    return {};
}

std::span<const LimitStatus> all_limit_statuses() { return status_list; }

std::string_view key_of(SoldAs sold_as) { return sold_as_names[static_cast<std::size_t>(sold_as)].key; }
std::string_view name_of(SoldAs sold_as) { return sold_as_names[static_cast<std::size_t>(sold_as)].name; }

std::optional<SoldAs> sold_as_from_key(std::string_view key) {
    for (const auto& row : sold_as_names)
        if (row.key == key)
            return row.sold_as;
    return {};
}

std::span<const SoldAs> all_sold_as() { return sold_as_list; }

std::string_view key_of(PropionateCount count) { return count_keys[static_cast<std::size_t>(count)]; }

std::optional<PropionateCount> propionate_count_from_key(std::string_view key) {
    for (std::size_t i = 0; i < count_keys.size(); ++i)
        if (count_keys[i] == key)
            return static_cast<PropionateCount>(i);
    return {};
}

std::string in_words(LimitRef ref) {
    return (ref.of == LimitRef::Of::propionates ? "P" : "") + std::to_string(ref.number);
}

std::optional<LimitRef> limit_ref_from(std::string_view words) {
    LimitRef ref;
    auto digits = trimmed(words);
    if (!digits.empty() && (digits.front() == 'P' || digits.front() == 'p')) {
        ref.of = LimitRef::Of::propionates;
        digits.remove_prefix(1);
    }
    const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), ref.number);
    if (fault != std::errc{} || end != digits.data() + digits.size() || ref.number <= 0)
        return {};
    return ref;
}

} // namespace mellowbin
