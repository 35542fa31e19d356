#pragma once

#include <string>

namespace mellowbin {

/// What fails beside what is asked for, both in percent: "84 of 85 %"; with a decimal where they would read
/// alike: "84.6 of 85.0 %".
std::string percent_of_words(double reached, double asked);

} // namespace mellowbin
