#pragma once

#include "planning/reasons.h"

#include <string>
#include <vector>

namespace mellowbin::planning {

/// "L3", "L3 and L7", "L3, L7 and L9"; beyond five "L3, L7, L9, L12 and 4 more".
std::string names_of(const Problem& problem, const std::vector<int>& lots);
/// "Wed 25 Nov" as the caller names it, else "day 3".
std::string day_words(const Background& background, double day);
/// "protein 11.24 %", with the property's own decimals and one more.
std::string value_words(const Problem& problem, int property, double value);
/// "protein 0.31 % below its window".
std::string off_window_words(const Problem& problem, int property, double off);
std::string tonnes_words(double tonnes);
/// The rule as a heading: "Not released in time".
std::string rule_words(Ban ban);
/// First letter upper case.
std::string sentence(std::string words);

} // namespace mellowbin::planning
