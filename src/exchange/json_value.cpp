#include "exchange/json_value.h"

#include "core/typed_text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace mellowbin::exchange {
namespace {

[[noreturn]] void refuse(const nlohmann::json& value) {
    throw std::runtime_error(fmt::format("{} is no whole number that fits", json_words(value)));
}

} // namespace

std::string json_words(const nlohmann::json& value) {
    const bool is_flat =
        std::none_of(value.begin(), value.end(), [](const auto& part) { return part.is_structured(); });
    if (is_flat)
        return excerpt(value.dump());
    return value.is_array() ? "[…]" : "{…}";
}

std::int64_t whole_number(const nlohmann::json& value) {
    constexpr auto largest = static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());
    if (!value.is_number_integer() || (value.is_number_unsigned() && value.get<std::uint64_t>() > largest))
        refuse(value);
    return value.get<std::int64_t>();
}

int small_number(const nlohmann::json& value) {
    const auto whole = whole_number(value);
    if (whole < std::numeric_limits<int>::min() || whole > std::numeric_limits<int>::max())
        refuse(value);
    return static_cast<int>(whole);
}

} // namespace mellowbin::exchange
