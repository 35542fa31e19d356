#pragma once

#include "core/result.h"

#include <string>
#include <string_view>
#include <vector>

/// GS1 element strings, as barcodes hold them and as people read them.
namespace mellowbin::exchange {

inline constexpr char group_separator = '\x1d';

/// An application identifier with its value.
struct Element {
    std::string identifier; ///< "10"
    std::string value;
    friend bool operator==(const Element&, const Element&) = default;
};
using Elements = std::vector<Element>;

/// The value of the identifier; empty where there is none.
std::string value_of(const Elements& elements, std::string_view identifier);

/// As a symbol holds it: values of unknown length end at a group separator; one in front, behind or after a
/// value of predefined length is let pass. Refused, with the identifier in the field, at the first thing that
/// cannot be: an unknown identifier, a value too short or long, a wrong check digit, no date, characters out
/// of set 82; and where two elements say different things or may not stand together.
Result<Elements> read_element_string(std::string_view data);

/// As it is printed beneath a symbol and typed by hand: "(01)…(10)…", "\(" for a bracket in a value; spaces
/// are let pass.
Result<Elements> read_bracketed(std::string_view text);

/// GTINs of 8, 12 or 13 digits in a Digital Link, which the standard wants filled up with zeros to 14.
enum class ShortGtin { is_refused, is_filled_up };
/// A GS1 Digital Link URI, of any domain: it is text and nothing is fetched.
Result<Elements> read_digital_link(std::string_view uri, ShortGtin short_gtin = ShortGtin::is_refused);
/// The text begins as one does.
bool is_uri(std::string_view text);

/// What may not stand together: one identifier with two values, or pairs that the standard forbids.
Refusals conflicts_in(const Elements& elements);
/// What each identifier wants beside it and none of the symbols on the pallet had: to be asked of all that
/// was scanned of it.
Refusals missing_beside(const Elements& elements);
/// Two symbols scanned one after the other are of one pallet's label: nothing of them conflicts, and the one
/// has the lot or the pallet's number (SSCC) that the other lacks and waits for.
bool complete_each_other(const Elements& before, const Elements& now);

} // namespace mellowbin::exchange
