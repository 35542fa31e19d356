#pragma once

#include "core/day.h"
#include "core/quantity.h"
#include "core/result.h"
#include "exchange/element_string.h"
#include "exchange/symbol.h"

#include <optional>
#include <string>
#include <vector>

/// What the symbols on a label hold.
namespace mellowbin::print {

/// Flour that gets a label.
struct LabelledFlour {
    std::string sscc; ///< of the pallet, 18 digits; empty: it has none
    std::string gtin; ///< of the flour as its mill sells it, 8, 12, 13 or 14 digits; empty: nobody said
    std::optional<int> count; ///< of bags on the pallet; then the GTIN is the bag's
    std::string lot, flour, mill;
    std::optional<Day> milled_on, best_before;
    std::optional<Grams> net;
    std::string place;  ///< where it lies; empty: nowhere
    std::string remark; ///< of its last day: "May be used until 2026-12-01"; empty: none
    std::string plant;  ///< whose label it is
};

struct LabelData {
    exchange::Elements elements;       ///< those that stop of themselves first, the lot last
    std::vector<std::string> left_out; ///< in words: what no symbol of GS1 can hold, and why
};
/// Refused: an SSCC or a GTIN that is none.
Result<LabelData> label_data(const LabelledFlour& flour, Day today);

/// A row of bars with what it holds.
struct Bars {
    exchange::Symbol symbol;
    std::string words; ///< as people read it: "(15) 270531 (10) A7"
};
/// GS1 General Specifications, release 18, 5.4.4: the longest symbol with its quiet zones, and the most
/// characters, identifiers and separators among them.
inline constexpr double longest_bars_mm = 165.1;
inline constexpr std::size_t most_characters = 48;
/// 0.495 to 1.016 mm on trade and logistic units (GS1 UK's guide, a second-hand copy); four dots of a
/// printer of 203 dpi, which has eight a mm.
inline constexpr double bar_module_mm = 0.5;
inline constexpr double bar_height_mm = 31.75; ///< least of a logistic unit; from memory

/// The elements as GS1-128, the pallet's number alone, the others together as far as they fit into
/// `width_mm` with their quiet zones and into what the standard allows. Refused: an element that alone is
/// wider.
Result<std::vector<Bars>> bars_of(const exchange::Elements& elements, double width_mm);

} // namespace mellowbin::print
