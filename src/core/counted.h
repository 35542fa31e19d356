#pragma once

#include <fmt/format.h>

#include <concepts>
#include <string>
#include <string_view>

namespace mellowbin {

/// "1 lot", "3 lots"
std::string counted(std::integral auto count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

} // namespace mellowbin
