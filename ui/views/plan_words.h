#pragma once

#include "app/read_models.h"
#include "ui/views/words.h"

#include <string>
#include <vector>

/// Figures and days as the screens say them.
namespace mellowbin::views {

/// "1 200", "612.5": with one decimal where it is not zero, thousands apart.
std::string kilograms(double kg);
/// "80 %" of a share from 0 to 1.
std::string percent(double share);
/// "Wed 25 Nov", or a dash for a day that is not known.
std::string day_or_dash(const std::optional<Day>& day);
/// The lines of a text that has some.
std::vector<std::string> lines_of(const std::string& text);

} // namespace mellowbin::views
