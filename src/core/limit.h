#pragma once

#include "core/day.h"
#include "core/quantity.h"

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
std::optional<FoodClass> food_class_from_key(std::string_view key);

enum class LimitStatus {
    permitted,     ///< up to the limit
    permitted_gmp, ///< no figure: not more than good manufacturing practice needs
    not_permitted, ///< zero
    unclear,       ///< the source does not settle it: treated as not permitted
};

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
};

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
