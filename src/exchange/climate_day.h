#pragma once

#include "aging/climate_day.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// What a day of a place came to, as JSON text for the book, its day left out; climate_day_from_json() is its
/// inverse, to the last bit.
std::string climate_day_as_json(const aging::ClimateDay& day);
/// Nothing where the text is broken: then the day is summed anew.
std::optional<aging::ClimateDay> climate_day_from_json(Day day, std::string_view text);

} // namespace mellowbin::exchange
