#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// Characters of UTF-8; a byte that is none stands alone.
std::vector<std::string> characters_of(std::string_view text);

/// How a text that was expected lies along the one that came.
struct Alignment {
    std::vector<std::string> came; ///< for each character expected: the one in its place; empty: lost
    std::vector<std::string>
        before;            ///< for each, and for the end: what came in front of it and was not expected
    std::size_t alike = 0; ///< characters that are as expected, or turned the same way each time
};

/// The least change that makes the one of the other. At a group separator, which may be lost or sent as
/// several signs, and at both ends, changes are the likelier.
Alignment aligned(const std::vector<std::string>& expected, const std::vector<std::string>& came);

} // namespace mellowbin::exchange
