#include "app/acts/instant_typed.h"

#include "core/typed_text.h"
#include "exchange/plant_time.h"

#include <fmt/format.h>

#include <optional>
#include <sstream>

namespace mellowbin::app {
namespace {

/// "08:00"; nothing where it is no time of day.
std::optional<std::chrono::minutes> read_time(std::string_view text) {
    int hour = 0;
    int minute = 0;
    char colon = 0;
    std::istringstream in{std::string(text)};
    if (!(in >> hour >> colon >> minute) || !(in >> std::ws).eof() || colon != ':')
        return {};
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59)
        return {};
    return std::chrono::hours{hour} + std::chrono::minutes{minute};
}

} // namespace

Result<Instant> read_instant(const Clock& clock, std::string_view field, const std::string& text) {
    constexpr std::size_t day_long = 10;
    const std::string typed(trimmed(text));
    const std::string name(field);
    const auto day = read_day(field, typed.substr(0, day_long));
    const auto words = typed.size() > day_long ? std::string(trimmed(typed.substr(day_long))) : std::string();
    const auto time = words.empty() ? std::optional<std::chrono::minutes>{Days{1}} : read_time(words);
    if (!day || !*day || !time)
        return Refusal{name, fmt::format("\"{}\" was read", excerpt(typed)),
                       "Enter a day as year-month-day, and its time where one is meant: 2026-11-20 08:00"};
    const exchange::WrittenTime written{date::local_seconds((*day)->time_since_epoch()) + *time, {}};
    const auto instant = exchange::to_instants({&written, 1}, clock.zone()).of.front();
    if (!instant)
        return Refusal{name, fmt::format("{} was skipped by the plant's clock", typed),
                       "Enter an hour later"};
    if (**day > clock.today())
        return Refusal{name, fmt::format("{} was read, which is to come", typed),
                       "Enter a time that has been"};
    return *instant;
}

} // namespace mellowbin::app
