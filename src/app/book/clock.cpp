#include "app/book/clock.h"

#include "app/book/clock_words.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <chrono>
#include <map>
#include <stdexcept>

namespace mellowbin::app {
namespace {

const date::time_zone* find_zone(const std::string& name) {
    try {
        return name.empty() ? date::current_zone() : date::locate_zone(name);
    } catch (const std::runtime_error&) {
        return nullptr;
    }
}

/// A machine without zone tables still has a day: UTC's. Looked up once a thread: finding the machine's own
/// zone asks the disk.
const date::time_zone* zone_of(const std::string& name) {
    thread_local std::map<std::string, const date::time_zone*> zones;
    const auto known = zones.find(name);
    return known != zones.end() ? known->second : zones.emplace(name, find_zone(name)).first->second;
}

date::local_seconds local(Instant instant, const std::string& zone_name) {
    if (const auto* zone = zone_of(zone_name))
        return zone->to_local(instant);
    return date::local_seconds{instant.time_since_epoch()};
}

} // namespace

Day Clock::today() const {
    if (fixed_day)
        return *fixed_day;
    return Day{date::floor<date::days>(local(now(), time_zone)).time_since_epoch()};
}

const date::time_zone* Clock::zone() const { return zone_of(time_zone); }

std::string Clock::in_words() const {
    if (fixed_day)
        return date::format("%a %e %b %Y", *fixed_day);
    return date::format("%a %e %b %Y, %H:%M", local(now(), time_zone));
}

std::string Clock::in_words(Instant instant, Day on) const {
    const Day day = plant_day(*this, instant);
    const auto time = date::format("%H:%M", local(instant, time_zone));
    if (day == on)
        return time;
    const auto year = date::year_month_day{day}.year();
    const bool is_of_this_year = year == date::year_month_day{on}.year();
    return short_day(day) + (is_of_this_year ? "" : date::format(" %Y", day)) + ", " + time;
}

Day plant_day(const Clock& clock, Instant instant) {
    return Day{date::floor<date::days>(local(instant, clock.time_zone)).time_since_epoch()};
}

std::string time_in_words(const Clock& clock, Instant instant, Day today) {
    const auto here = local(instant, clock.time_zone);
    const date::year_month_day day{date::floor<date::days>(here)};
    const bool is_this_year = day.year() == date::year_month_day{today}.year();
    return fmt::format("{} {}", static_cast<unsigned>(day.day()),
                       date::format(is_this_year ? "%b %H:%M" : "%b %Y %H:%M", here));
}

Clock Clock::of_the_machine() {
    return {
        [] { return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()); }, {}, {}};
}

Clock Clock::standing_at(Day day) {
    return {[day] { return Instant{day} + std::chrono::hours{12}; }, day, {}};
}

} // namespace mellowbin::app
