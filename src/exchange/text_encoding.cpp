#include "exchange/text_encoding.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <optional>

namespace mellowbin::exchange {
namespace {

/// Bytes 80 to 9F of Windows-1252, by the table of Unicode's consortium (VENDORS/MICSFT/WINDOWS/CP1252.TXT);
/// 0 where it has none. All others are the same as in Latin-1, and so as in Unicode.
constexpr std::array<char32_t, 32> windows_1252{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178,
};

constexpr const char* save_as_utf8 = "Save the file again as text in UTF-8";

unsigned byte_at(std::string_view bytes, std::size_t i) { return static_cast<unsigned char>(bytes[i]); }

void append(std::string& text, char32_t c) {
    const auto put = [&](char32_t bits) { text += static_cast<char>(bits); };
    if (c < 0x80) {
        put(c);
    } else if (c < 0x800) {
        put(0xC0 | c >> 6U);
        put(0x80 | (c & 0x3F));
    } else if (c < 0x10000) {
        put(0xE0 | c >> 12U);
        put(0x80 | (c >> 6U & 0x3F));
        put(0x80 | (c & 0x3F));
    } else {
        put(0xF0 | c >> 18U);
        put(0x80 | (c >> 12U & 0x3F));
        put(0x80 | (c >> 6U & 0x3F));
        put(0x80 | (c & 0x3F));
    }
}

std::string line_of(std::string_view text, std::size_t place) {
    return fmt::format("Line {}",
                       1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(place), '\n'));
}

/// Whether half of a pair of UTF-16 stands there, and which.
bool is_first_half(char32_t unit) { return unit >= 0xD800 && unit < 0xDC00; }
bool is_second_half(char32_t unit) { return unit >= 0xDC00 && unit < 0xE000; }

Result<std::string> from_utf16(std::string_view bytes, bool is_big_endian) {
    if (bytes.size() % 2 != 0)
        return Refusal{"", "the text is UTF-16 and ends within a character: it is torn",
                       "Get it again, whole"};
    const auto unit = [&](std::size_t i) -> char32_t {
        return is_big_endian ? byte_at(bytes, i) << 8U | byte_at(bytes, i + 1)
                             : byte_at(bytes, i + 1) << 8U | byte_at(bytes, i);
    };
    std::string text;
    text.reserve(bytes.size());
    for (std::size_t i = 0; i < bytes.size(); i += 2) {
        char32_t c = unit(i);
        if (is_first_half(c) && i + 2 < bytes.size() && is_second_half(unit(i + 2))) {
            c = 0x10000 + ((c - 0xD800) << 10U) + (unit(i + 2) - 0xDC00);
            i += 2;
        } else if (is_first_half(c) || is_second_half(c)) {
            return Refusal{line_of(text, text.size()),
                           "the text is UTF-16, and half a character stands there", save_as_utf8};
        }
        append(text, c);
    }
    return text;
}

Result<std::string> from_windows_1252(std::string_view bytes) {
    std::string text;
    text.reserve(bytes.size() + bytes.size() / 8);
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const unsigned byte = byte_at(bytes, i);
        const bool is_of_table = byte >= 0x80 && byte < 0xA0;
        const char32_t c = is_of_table ? windows_1252[byte - 0x80] : byte;
        if (is_of_table && c == 0)
            return Refusal{
                line_of(bytes, i),
                fmt::format("the byte {:02X} was read, which is neither UTF-8 nor Windows-1252", byte),
                save_as_utf8};
        append(text, c);
    }
    return text;
}

/// Where a control character stands that no text has.
std::optional<std::size_t> first_control(std::string_view text) {
    const auto at = std::find_if(text.begin(), text.end(), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte < 0x20 && std::string_view("\t\n\v\f\r").find(c) == std::string_view::npos;
    });
    if (at == text.end())
        return {};
    return static_cast<std::size_t>(at - text.begin());
}

Result<std::string> decoded(std::string_view bytes) {
    if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF"))
        return from_utf16(bytes.substr(2), bytes.front() == '\xFE');
    if (bytes.starts_with("\xEF\xBB\xBF"))
        bytes.remove_prefix(3);
    if (is_utf8(bytes))
        return std::string(bytes);
    // What is no text is said to be none, rather than which byte of it no table has.
    if (const auto control = first_control(bytes))
        return std::string(bytes.substr(0, *control + 1));
    return from_windows_1252(bytes);
}

} // namespace

bool is_utf8(std::string_view bytes) {
    // Most of a file is ASCII: eight bytes at a time.
    constexpr std::uint64_t high_bits = 0x8080'8080'8080'8080;
    std::uint64_t eight = 0;
    while (!bytes.empty()) {
        if (bytes.size() >= sizeof eight) {
            std::memcpy(&eight, bytes.data(), sizeof eight);
            if ((eight & high_bits) == 0) {
                bytes.remove_prefix(sizeof eight);
                continue;
            }
        }
        const auto length = character_length(bytes);
        if (length == 0)
            return false;
        bytes.remove_prefix(length);
    }
    return true;
}

Result<std::string> as_utf8(std::string_view bytes) {
    auto text = decoded(bytes);
    if (!text)
        return text;
    if (const auto control = first_control(*text))
        return Refusal{line_of(*text, *control),
                       fmt::format("a control character ({:02X}) was read: this is no plain text",
                                   byte_at(*text, *control)),
                       save_as_utf8};
    return text;
}

} // namespace mellowbin::exchange
