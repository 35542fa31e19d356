#pragma once

#include <cstdint>
#include <string_view>

namespace mellowbin {

/// Of a text, the same on every machine and for all time (FNV-1a, 64 bits, draft-eastlake-fnv): tells one
/// form from another, guards nothing.
constexpr std::uint64_t fingerprint(std::string_view text) {
    std::uint64_t print = 0xcbf29ce484222325;
    for (const char c : text)
        print = (print ^ static_cast<unsigned char>(c)) * 0x100000001b3;
    return print;
}

// The published test vectors of the empty text and of "a".
static_assert(fingerprint("") == 0xcbf29ce484222325 && fingerprint("a") == 0xaf63dc4c8601ec8c);

} // namespace mellowbin
