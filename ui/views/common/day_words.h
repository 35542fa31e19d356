#pragma once

#include "core/day.h"
#include "ui/views/common/words.h"

#include <optional>
#include <string>

/// Figures and days as the screens say them.
namespace mellowbin::views {

/// "1 200", "612.5": with one decimal where it is not zero, thousands apart.
std::string kilograms(double kg);
/// "80 %" of a share from 0 to 1.
std::string percent(double share);
/// "Wed 25 Nov", or a dash for a day that is not known.
std::string day_or_dash(const std::optional<Day>& day);
/// "3 Dec"; "15 Jan 2027" where it is not the other day's year.
std::string short_day_near(Day day, Day other);
/// With a capital letter in front.
std::string as_sentence(std::string words);

} // namespace mellowbin::views
