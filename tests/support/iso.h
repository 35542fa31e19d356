#pragma once

#include "core/day.h"

#include <date/date.h>
#include <fmt/format.h>

#include <stdexcept>
#include <string>
#include <string_view>

/// Days and instants as tests write them; another text is a fault of the test.
namespace mellowbin {

inline Day day_from_iso(std::string_view text) {
    const auto day = read_day("Day", text);
    if (!day || !*day)
        throw std::runtime_error(fmt::format("\"{}\" is no day", text));
    return **day;
}

/// Of the form 2026-11-25T04:10:00Z.
inline Instant instant_from_iso(std::string_view text) {
    const std::string words(text);
    const auto number = [&](std::size_t at) { return std::stoi(words.substr(at, 2)); };
    Instant instant;
    try {
        instant = Instant(day_from_iso(words.substr(0, 10))) + std::chrono::hours{number(11)} +
                  std::chrono::minutes{number(14)} + std::chrono::seconds{number(17)};
    } catch (const std::exception&) {
        throw std::runtime_error(fmt::format("\"{}\" is no instant", text));
    }
    if (iso(instant) != words)
        throw std::runtime_error(fmt::format("\"{}\" is no instant", text));
    return instant;
}

} // namespace mellowbin
