#pragma once

#include "core/id.h"
#include "core/quantity.h"
#include "core/result.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// A pallet as scanned or typed: all text.
struct PalletDraft {
    std::string sscc; ///< serial shipping container code: 18 digits, blanks between them or (00) in front
    std::string kg;   ///< of flour on it; empty: its label says none
};

/// A pallet of a lot.
struct Pallet {
    std::string sscc; ///< 18 digits
    LotId lot;        ///< not known before the lot is in the book
    std::optional<Grams> mass;
    friend bool operator==(const Pallet&, const Pallet&) = default;
};

/// The check digit that GS1 numbers end with, of the digits before it: modulo 10, weights 3 and 1 from the
/// right (GS1 General Specifications, 7.9). "629104150021" has 3.
char gs1_check_digit(std::string_view digits);

/// The 18 digits of what was typed or scanned: blanks, "(00)" and "00" in front of them go. What is none
/// stays as it was, so that why_no_sscc() can say so.
std::string sscc_digits(std::string_view typed);
/// Why the digits are no SSCC, in words; nothing: they are one.
std::optional<std::string> why_no_sscc(std::string_view digits);
/// "0106 1414 1000 0000 13": as it is read aloud, in fours.
std::string sscc_in_words(std::string_view digits);

/// The field of the pallet at this place of its lot, from 0: "Pallet 2", "Pallet 2: weight".
std::string pallet_field(std::size_t place);
std::string pallet_weight_field(std::size_t place);
/// Reads pallets; a draft of which nothing was typed is none. Refused: what is no SSCC, one that stands
/// twice, a weight that is none, all of them at once.
std::vector<Pallet> read_pallets(std::span<const PalletDraft> drafts, Refusals& refusals);

} // namespace mellowbin
