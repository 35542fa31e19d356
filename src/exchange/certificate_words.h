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

/// Where a word is from.
enum class WordSource { published, common_practice, from_memory };

/// A word of a label and what it may mean; several keys make it ambiguous, and it is asked.
struct CertificateWord {
    std::string words; ///< folded
    std::string language;
    std::vector<std::string> means; ///< keys of meanings
    std::string method;             ///< where the word itself says it: "AACC 76-31"
    std::string source;             ///< a publication, "common practice, no source" or "from memory"
};
std::span<const CertificateWord> certificate_words();
/// The longest words that the label holds, whole words only; null where it holds none.
const CertificateWord* word_in(std::string_view folded_label);

/// A unit of a certificate: what a figure in it is multiplied by to be in the unit of the property or field.
struct UnitWords {
    std::string key;                ///< "g/kg"
    std::string quantity;           ///< "percent", "time_s", "time_min", "mass", ...: what fits what
    double factor = 1;              ///< to the quantity's first unit, exact
    std::vector<std::string> words; ///< folded, as they may stand
    std::string source;
};
std::span<const UnitWords> certificate_units();
/// The unit that stands there, whole; null where it is none that is known.
const UnitWords* unit_named(std::string_view text);
/// Whether figures in the unit can be those of the meaning, and by what they are multiplied to be in its own
/// unit (traits(property).unit, kg); nothing where the unit does not fit, which is never bent.
std::optional<double> factor_to(const Meaning& meaning, const UnitWords& unit);

/// A moisture basis in one of the four languages as read_basis() reads it ("i. Tr." is "dry matter", "à 14 %
/// H2O" is "14 % moisture"); nothing where the words are none.
std::optional<std::string> basis_in_words(std::string_view text);

} // namespace mellowbin::exchange
