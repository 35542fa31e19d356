#pragma once

#include "core/limit.h"
#include "core/lot.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// Words for comparing: lower case, accents and umlauts off (ä is a, ß is ss), all marks and blanks one
/// space: "Feuchtkleber-Gehalt (i. Tr.)" is "feuchtkleber gehalt i tr".
std::string folded(std::string_view text);

/// What a label on a certificate may mean, besides a property.
enum class LotFact {
    lot_number,
    mill,
    flour,
    place,
    delivery_note,
    milled_on,
    delivered_on,
    best_before,
    certificate_date,
    weight,
    bag_weight,
    flour_temperature,
    price_per_tonne,
};
std::span<const LotFact> all_lot_facts();
std::string_view key_of(LotFact fact);  ///< "lot_number"
std::string_view name_of(LotFact fact); ///< "Lot number", as intake names the field

/// Heads of a table "property | value | unit | basis | method".
enum class TableHead { property, value, unit, basis, method, specification };
/// What the head of a column says; nothing where it is none of these.
std::optional<TableHead> table_head(std::string_view text);

/// What a word or a person gives to a label, by key: a property's ("protein"), a lot fact's ("lot_number"), a
/// substance's that the mill added ("ascorbic_acid"), or one of these two.
inline constexpr std::string_view left_out_key = "left_out"; ///< known and not read
inline constexpr std::string_view not_known_key = "";

/// What can be said of a meaning's key; nothing where there is none of it.
struct Meaning {
    std::string key;
    std::string name; ///< as the screen names it: "Wet gluten", "Lot number", "Ascorbic acid"
    std::optional<Property> property;
    std::optional<LotFact> fact;
    std::optional<Substance> substance;
};
std::optional<Meaning> meaning_from_key(std::string_view key);
/// All that a label may be given: for a person to choose from.
std::span<const Meaning> all_meanings();

/// A word of a label and what it may mean: the row of certificate_words.csv.
struct CertificateWord {
    std::string words; ///< folded
    std::string language;
    std::vector<std::string> means; ///< keys of meanings, left_out_key; several: it is asked
    std::string source;             ///< where it was read; "common practice no source" where it was not
};
std::span<const CertificateWord> certificate_words();

/// What a label's name comes to.
struct NameRead {
    std::vector<std::string> means; ///< keys it may mean; empty: none that is known
    bool is_whole = false;          ///< no word of it was left over
    bool is_of_grain = false;       ///< of the wheat, not of the flour
};
/// Reads the name of a label: the longest words that are known, whole words only, one after the other.
NameRead read_name(std::string_view name);
/// A line of a table that sums up and is no lot: "Mean", "Spezifikation".
bool is_summary(std::string_view text);

/// A unit of a certificate, the row of certificate_units.csv, and what a figure in it is multiplied by to be
/// in the first unit of its quantity.
struct UnitWords {
    std::string key;                     ///< "g/kg"
    std::vector<std::string> quantities; ///< "fraction", "time", ...: what fits what
    double factor = 1;                   ///< exact
    std::vector<std::string> words;      ///< without blanks, lower case
    std::string source;
};
std::span<const UnitWords> certificate_units();
/// The units that stand so, whole text: none where it is no unit that is known, several for "ton" or "%".
std::vector<const UnitWords*> units_named(std::string_view text);
/// The units that figures of the meaning may be in, its own first; empty where it has none.
std::vector<const UnitWords*> units_for(const Meaning& meaning);
/// Of the units that stand so, those that figures of the meaning may be in.
std::vector<const UnitWords*> fitting_units(const Meaning& meaning, std::string_view text);
/// The unit that drafts of the meaning are in: traits(property).unit, "kg", "mg/kg"; empty for none.
std::string_view own_unit(const Meaning& meaning);
/// What figures in the unit, one of units_for(), are multiplied by to be in own_unit(). Exact but for minutes
/// of seconds.
double factor_to_own(const Meaning& meaning, const UnitWords& unit);

/// A moisture basis in one of the four languages as read_basis() reads it ("i. Tr." is "dry matter", "à 14 %
/// H2O" is "14 % moisture"); nothing where the words are none.
std::optional<std::string> basis_in_words(std::string_view text);

} // namespace mellowbin::exchange
