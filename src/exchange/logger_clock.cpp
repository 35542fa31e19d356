#include "exchange/logger_clock.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::exchange {
namespace {

/// "about 3 hours", "about 45 days", "about 1 year"
std::string about(std::chrono::seconds span) {
    const double hours = static_cast<double>(span.count()) / 3600;
    const double days = hours / 24;
    const bool is_years = days > 330, is_days = hours >= 48;
    const double amount = is_years ? days / 365.25 : is_days ? days : hours;
    const double rounded = is_years ? std::round(amount * 10) / 10 : std::round(amount);
    return fmt::format("about {} {}{}", rounded,
                       is_years  ? "year"
                       : is_days ? "day"
                                 : "hour",
                       rounded == 1 ? "" : "s");
}

/// The readings before an instant.
struct Before {
    std::ptrdiff_t count = 0;
    Instant newest;
    Instant until; ///< the instant

    /// All of them lie there, or most of them and apart from the others: a clock that jumped. A log that was
    /// begun long before goes on without such a hole.
    [[nodiscard]] bool is_a_wrong_clock(std::ptrdiff_t of) const {
        return count > 0 && (count == of || (2 * count >= of && until - newest > longest_before_flour));
    }
};

Before those_before(std::span<const Instant> instants, Instant until) {
    Before before{0, {}, until};
    for (const Instant at : instants)
        if (at < until) {
            before.newest = before.count == 0 ? at : std::max(before.newest, at);
            ++before.count;
        }
    return before;
}

std::string as_written(const LoggerTime& time) {
    return fmt::format("{:02}/{:02}/{}", time.first, time.second, time.year);
}

} // namespace

std::optional<Refusal> why_clock_is_wrong(std::span<const Instant> instants, Instant now,
                                          std::optional<Instant> earliest) {
    if (instants.empty())
        return {};
    const auto ahead = std::count_if(instants.begin(), instants.end(),
                                     [&](Instant at) { return at > now + clock_tolerance; });
    const bool is_ahead = 2 * ahead >= std::ssize(instants);
    const auto behind = earliest ? those_before(instants, *earliest - longest_before_flour) : Before{};
    if (!is_ahead && !behind.is_a_wrong_clock(std::ssize(instants)))
        return {};
    const Instant newest = *std::max_element(instants.begin(), instants.end());
    const auto of_how_many = [&](std::ptrdiff_t count) {
        return fmt::format("{} of {} readings lie", count, instants.size());
    };
    const std::string where =
        is_ahead ? fmt::format("{} after now, {}; the newest is {} ahead", of_how_many(ahead), iso(now),
                               about(newest - now))
                 : fmt::format("{} over {} days before this plant had flour, {}; the newest is {} behind now",
                               of_how_many(behind.count), longest_before_flour.count(), iso(*earliest),
                               about(now - behind.newest));
    return Refusal{"Time", "the logger's clock looks wrong: " + where,
                   "Set the logger's clock, and correct the times of this file before it is read"};
}

Result<SlashedDates> way_of_slashed_dates(std::span<const LoggerTime> times) {
    const LoggerTime* day_first = nullptr;
    const LoggerTime* month_first = nullptr;
    const LoggerTime* either = nullptr;
    for (const LoggerTime& time : times) {
        const bool first_is_month = time.first >= 1 && time.first <= 12;
        const bool second_is_month = time.second >= 1 && time.second <= 12;
        if (!time.is_slashed || (!first_is_month && !second_is_month) || time.first == time.second)
            continue;
        auto& proof = !first_is_month ? day_first : !second_is_month ? month_first : either;
        if (!proof)
            proof = &time;
    }
    constexpr const char* remedy = "Export the log with dates such as 2026-11-25";
    if (day_first && month_first)
        return Refusal{"",
                       fmt::format("{} has the day in front and {} the month; one way is expected",
                                   as_written(*day_first), as_written(*month_first)),
                       remedy};
    if (either && !day_first && !month_first)
        return Refusal{"",
                       fmt::format("{} was read, which may be two days, and no line of the file tells "
                                   "whether day or month stands in front",
                                   as_written(*either)),
                       remedy};
    return month_first ? SlashedDates::month_first : SlashedDates::day_first;
}

} // namespace mellowbin::exchange
