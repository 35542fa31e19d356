#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

/// The lot number in what a scanner or a person gave: of a GS1 element string (with symbology identifier,
/// with brackets, or plain with group separators) that of application identifier 10; else the text itself.
/// Line ends and blanks around it are the scanner's. Nothing: it is empty, or an element string without a lot
/// number. Element strings by the GS1 General Specifications; only what is needed to find the lot is read,
/// and check digits are not proven here.
std::optional<std::string> lot_number_in(std::string_view scan);

/// What a label of a delivery says, as a person would type it; empty where it does not.
struct LabelWords {
    std::string lot;         ///< application identifier 10
    std::string milled_on;   ///< 11, the day of production
    std::string best_before; ///< 15
    std::string kg;          ///< 310n, the net weight; not beside a count (37), of whose items it may be
};
/// Of an element string as above; of any other text its lot number alone.
LabelWords label_in(std::string_view scan);

} // namespace mellowbin
