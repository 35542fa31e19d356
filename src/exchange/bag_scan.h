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

} // namespace mellowbin
