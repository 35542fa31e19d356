#pragma once

#include "core/day.h"
#include "core/quantity.h"
#include "core/result.h"
#include "exchange/element_string.h"

#include <optional>
#include <string>
#include <string_view>

/// What a scanner sent, or a person typed in its place.
namespace mellowbin::exchange {

/// What was scanned: elements of GS1, or a text of nobody's form.
struct Scan {
    Elements elements;
    std::string text; ///< without the scanner's own signs; empty where there are elements
    [[nodiscard]] bool is_gs1() const { return !elements.empty(); }
};

/// Stands for a group separator on screen, where a keyboard's scanner types it into a field.
inline constexpr std::string_view shown_separator = "\u241d";

/// More than any symbol holds: the largest, a QR code of version 40, has 7089 digits (ISO/IEC 18004; from
/// memory). A separator may be sent as several characters.
inline constexpr std::size_t longest_scan = 16'000;

/// How the plant's scanners are set.
struct ScannerSetup {
    std::string separator = {}; ///< what is sent in place of a group separator: "~", "<GS>"; empty: itself
};

/// With or without a symbology identifier (ISO/IEC 15424); line ends and tabs behind it are the scanner's.
/// Without one it is of GS1 where it begins as such and can be read to its end. Refused: what says that it is
/// of GS1 and cannot be read, what a wrong keyboard layout or Caps Lock made of it, and more than a
/// symbol holds.
Result<Scan> read_scan(std::string_view bytes, const ScannerSetup& setup = {});

/// The lot number in what a scanner or a person gave: that of identifier 10, else the text itself. Refused
/// as read_scan() does, and where a label of GS1 has no lot number.
Result<std::string> lot_number_in(std::string_view bytes, const ScannerSetup& setup = {});

/// What a label says of a delivery. Days by the century that the standard has (49 years back, 50 ahead), a
/// day of 00 as the last of its month.
struct LabelFacts {
    std::string sscc, gtin, content_gtin, lot, order;
    std::optional<Day> produced, packed, best_before, expires;
    std::optional<Grams> net; ///< of a label in lb rounded to the gram; of one item where there is a count
    std::string net_words;    ///< as the label says it: "25.000 kg", "55.11 lb"
    std::optional<int> count; ///< items of the content, or pieces
    std::string ship_to, purchased_from; ///< GLN
};
LabelFacts facts_of(const Elements& elements, Day today);

/// The lot number ends as a date element begins, and nothing came behind it: a separator may have been lost
/// on the way.
struct SeparatorDoubt {
    std::string as_read;   ///< "FL-240917A15270531"
    std::string otherwise; ///< "FL-240917A"
    Element behind;        ///< (15) 270531
};
std::optional<SeparatorDoubt> separator_doubt(const Elements& elements);

/// Why the lot number cannot stand in a symbol of GS1: longer than 20 characters, or out of character set 82.
/// Nothing: it can.
std::optional<std::string> why_not_on_label(std::string_view lot);

} // namespace mellowbin::exchange
