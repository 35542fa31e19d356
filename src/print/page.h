#pragma once

#include "core/result.h"

#include <string>
#include <string_view>

/// Paper, in millimetres.
namespace mellowbin::print {

struct PageSize {
    double width_mm = 0, height_mm = 0;
    friend bool operator==(const PageSize&, const PageSize&) = default;
};
inline constexpr PageSize a4{210, 297};                 ///< ISO 216
inline constexpr PageSize letter{215.9, 279.4};         ///< 8.5 by 11 inches
inline constexpr PageSize usual_pallet_label{148, 210}; ///< ISO 216, A5
inline constexpr PageSize usual_bag_label{105, 74};     ///< ISO 216, A7 across

/// The same page with its longer side across.
PageSize across(PageSize page);

/// "a4", "letter" in any case, or a label's own size, its width first: "105x148", in whole mm from 40 to 400.
/// Empty: as `usual`. Refused: anything else.
Result<PageSize> read_page_size(std::string_view typed, PageSize usual);
/// As the print system (IPP) calls it: "A4", "Letter", "Custom.105x148mm".
std::string media_of(PageSize page);

} // namespace mellowbin::print
