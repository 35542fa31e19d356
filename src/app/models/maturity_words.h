#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/plant.h"
#include "core/quantity.h"

#include <string>

namespace mellowbin::aging {
class Estimate;
}

namespace mellowbin::app {

class Estimates;

/// How fast a lot matures at 20 °C, 1/d, by all that is known of it.
double maturing_rate(const Estimates& estimates, LotId lot);

/// "84 %"; "over 99 %" of what rounds up to all of it.
std::string percent_words(Maturity maturity);
/// "84 %, about 19 days at 20 °C": how long fresh flour of this rate would take there. The percentage alone
/// where no days can be said: nothing matured yet, all but done, or no rate.
std::string maturity_words(Maturity maturity, double rate_per_day);
/// "about 19 days at 20 °C"; empty where no days can be said.
std::string days_at_20_words(Maturity maturity, double rate_per_day);
/// "about 7 days at 20 °C": from the one to the other; empty where nothing is missing or no days can be said.
std::string days_missing_words(Maturity counted, Maturity target, double rate_per_day);
/// "84 of 85 %"; with a decimal where both would read alike: "84.6 of 85.0 %".
std::string of_words(Maturity counted, Maturity target);
/// Of a lot on a day: "84 %, about 19 days at 20 °C (70 to 91 % in 80 of 100)".
std::string maturity_words(const aging::Estimate& estimate, Day day);
/// "70 to 91 % in 80 of 100"
std::string maturity_range_words(Maturity low, Maturity high);

} // namespace mellowbin::app
