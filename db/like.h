#pragma once

#include <string>
#include <string_view>

namespace mellowbin {

/// The pattern of LIKE … ESCAPE '\' that fits every text with these words in it, taken letter by letter.
inline std::string containing(std::string_view words) {
    std::string pattern = "%";
    for (const char c : words) {
        if (c == '%' || c == '_' || c == '\\')
            pattern += '\\';
        pattern += c;
    }
    return pattern + "%";
}

} // namespace mellowbin
