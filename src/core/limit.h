#pragma once

#include "core/day.h"
#include "core/quantity.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What is added to flour to make gluten stronger (or, L-cysteine, weaker). Each salt is a substance of its
/// own.
enum class Substance {
    ascorbic_acid,
    azodicarbonamide,
    potassium_bromate,
    calcium_bromate,
    potassium_iodate,
    calcium_iodate,
    calcium_peroxide,
    ammonium_persulphate,
    potassium_persulphate,
    benzoyl_peroxide,
    acetone_peroxide,
    l_cysteine,
    l_cysteine_hydrochloride,
    glucose_oxidase,
};

std::string_view key_of(Substance substance);  ///< in files and in the book: "potassium_bromate"
std::string_view name_of(Substance substance); ///< on screen: "Potassium bromate"
std::optional<Substance> substance_from_key(std::string_view key);
std::span<const Substance> all_substances();

/// What the law's row speaks of.
enum class FoodClass { white_flour, whole_wheat_flour, bread, whole_wheat_bread };
std::string_view key_of(FoodClass food);
std::string_view name_of(FoodClass food); ///< on screen: "Whole wheat bread"
std::optional<FoodClass> food_class_from_key(std::string_view key);

enum class LimitStatus {
    permitted,     ///< up to the limit
    permitted_gmp, ///< no figure: not more than good manufacturing practice needs
    not_permitted, ///< zero
    unclear,       ///< the source does not settle it: treated as not permitted
};
std::string_view key_of(LimitStatus status);  ///< in files and in the book: "permitted_gmp"
std::string_view name_of(LimitStatus status); ///< on screen: "Good manufacturing practice, no figure"
std::optional<LimitStatus> limit_status_from_key(std::string_view key);
std::span<const LimitStatus> all_limit_statuses();

/// One row of law: what a market allows of one substance in one food from one day on. Data, editable by the
/// plant, never silently overridden.
struct LimitRow {
    std::int64_t id = 0; ///< in the book
    std::string market;  ///< "US-federal"
    Substance substance{};
    FoodClass food{};
    LimitStatus status{};
    std::optional<OxidantPpm> limit; ///< mg of the substance per kg of flour
    std::string sum_group; ///< rows of a market with the same group share one limit by mass; empty: alone
    std::optional<Day> valid_from;
    std::optional<Day> valid_to; ///< the last day it holds
    std::string rule;            ///< in words, as the source puts the condition
    std::string source;          ///< statute and section
    std::string source_date;
    bool is_confirmed = false; ///< read in its source; a row that is not never permits a dose by itself
    std::string confirmed_by;  ///< the person who confirmed it for this plant; empty as shipped

    [[nodiscard]] bool holds_on(Day day) const {
        return (!valid_from || *valid_from <= day) && (!valid_to || day <= *valid_to);
    }
    friend bool operator==(const LimitRow&, const LimitRow&) = default;
};

/// How a bread is put on sale, as far as laws on preservatives tell breads apart.
enum class SoldAs {
    prepacked_sliced,     ///< prepacked sliced bread, and prepacked rye bread
    prepacked_part_baked, ///< prepacked partly baked or energy-reduced bread, rolls, buns and pitta
    prepacked_other,      ///< any other prepacked bread
    not_prepacked,
};
std::string_view key_of(SoldAs sold_as);
std::string_view name_of(SoldAs sold_as);
std::optional<SoldAs> sold_as_from_key(std::string_view key);
std::span<const SoldAs> all_sold_as();

/// What mass a limit of propionates counts.
enum class PropionateCount {
    acid,       ///< stated as propionic acid
    salt,       ///< stated as the salt
    not_stated, ///< the source does not say: the salt's own mass is counted, the stricter reading
};
std::string_view key_of(PropionateCount count);
std::optional<PropionateCount> propionate_count_from_key(std::string_view key);

/// What a market allows of propionates in a kind of bread. Data of the plant like a LimitRow.
struct PropionateRow {
    std::int64_t id = 0; ///< in the book
    std::string market;
    std::string bread;             ///< in words: "prepacked sliced bread and rye bread"
    std::optional<SoldAs> sold_as; ///< the breads it speaks of; nothing: any
    LimitStatus status{};
    std::optional<double> mg_per_kg; ///< of finished bread
    PropionateCount counted_as{};
    std::string rule;
    std::string source;
    std::string source_date;   ///< with how the figure was come by
    bool is_confirmed = false; ///< read in its source; a row that is not never permits a dose by itself
    std::string confirmed_by;  ///< the person who confirmed it for this plant; empty as shipped
    friend bool operator==(const PropionateRow&, const PropionateRow&) = default;
};

/// Which of the plant's limits: the two lists number their rows apart.
struct LimitRef {
    enum class Of { oxidants, propionates };
    Of of{};
    std::int64_t number = 0;
    friend bool operator==(const LimitRef&, const LimitRef&) = default;
};
/// "12", and "P3" of the list of propionates: as people name it.
std::string in_words(LimitRef ref);
std::optional<LimitRef> limit_ref_from(std::string_view words);

/// A market, and the wider one whose law holds in it as well ("US-CA" lies in "US-federal").
struct Market {
    std::string key;
    std::string name;
    std::string lies_in; ///< key of the wider market; empty for none
};

/// What the mill already put into a lot.
struct MillAddition {
    Substance substance{};
    OxidantPpm dose;
    friend bool operator==(const MillAddition&, const MillAddition&) = default;
};

} // namespace mellowbin
