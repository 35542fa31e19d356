#pragma once

#include "core/day.h"

#include <date/date.h>
#include <fmt/format.h>

#include <sstream>
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

inline Instant instant_from_iso(std::string_view text) {
    std::istringstream in{std::string(text)};
    Instant instant;
    in >> date::parse("%FT%TZ", instant);
    if (in.fail() || in.peek() != std::istringstream::traits_type::eof())
        throw std::runtime_error(fmt::format("\"{}\" is no instant", text));
    return instant;
}

} // namespace mellowbin
