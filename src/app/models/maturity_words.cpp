#include "app/models/maturity_words.h"

#include "aging/clocks.h"
#include "app/book/estimates.h"
#include "core/decimal.h"
#include "core/percent_words.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::app {
namespace {

constexpr double all_but_done = 0.995; ///< from here on the days say nothing: the curve is flat

std::string points(Maturity maturity, int decimals) { return fixed(100 * maturity.value(), decimals); }

std::string about_days(double days) {
    const auto whole = std::lround(days);
    return whole < 1 ? std::string("under a day at 20 °C")
                     : fmt::format("about {} {} at 20 °C", whole, whole == 1 ? "day" : "days");
}

} // namespace

double maturing_rate(const Estimates& estimates, LotId lot) {
    return std::exp(estimates.of(lot).log_rate().mean);
}

std::string percent_words(Maturity maturity) {
    const bool is_rounded_up = maturity.value() >= all_but_done && maturity.value() < 1;
    return is_rounded_up ? std::string("over 99 %") : points(maturity, 0) + " %";
}

std::string days_at_20_words(Maturity maturity, double rate_per_day) {
    if (rate_per_day <= 0 || maturity.value() <= 0 || maturity.value() >= all_but_done)
        return {};
    return about_days(aging::theta_for(maturity) / rate_per_day);
}

std::string maturity_words(Maturity maturity, double rate_per_day) {
    const auto days = days_at_20_words(maturity, rate_per_day);
    return percent_words(maturity) + (days.empty() ? "" : ", " + days);
}

std::string days_missing_words(Maturity counted, Maturity target, double rate_per_day) {
    if (rate_per_day <= 0 || counted >= target || target.value() >= all_but_done)
        return {};
    return about_days((aging::theta_for(target) - aging::theta_for(counted)) / rate_per_day);
}

std::string of_words(Maturity counted, Maturity target) {
    return percent_of_words(100 * counted.value(), 100 * target.value());
}

std::string maturity_words(const aging::Estimate& estimate, Day day) {
    const auto at = [&](double probability) { return estimate.maturity_at(probability, day); };
    return fmt::format("{} ({})", maturity_words(at(0.5), std::exp(estimate.log_rate().mean)),
                       maturity_range_words(at(0.1), at(0.9)));
}

std::string maturity_range_words(Maturity low, Maturity high) {
    return fmt::format("{} to {} in 80 of 100", points(low, 0), percent_words(high));
}

} // namespace mellowbin::app
