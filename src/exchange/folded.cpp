#include "core/typed_text.h"
#include "exchange/certificate_words.h"

#include <array>

namespace mellowbin::exchange {
namespace {

/// U+00C0 to U+017F without their marks, a space where the sign is no letter. The letters of two are told
/// apart below.
constexpr std::string_view plain_letters = "aaaaaaaceeeeiiiidnooooo ouuuuyts"  // U+00C0
                                           "aaaaaaaceeeeiiiidnooooo ouuuuyty"  // U+00E0
                                           "aaaaaaccccccccddddeeeeeeeeeegggg"  // U+0100
                                           "gggghhhhiiiiiiiiiiiijjkkklllllll"  // U+0120
                                           "lllnnnnnnnnnoooooooorrrrrrssssss"  // U+0140
                                           "ssttttttuuuuuuuuuuuuwwyyyzzzzzzs"; // U+0160
static_assert(plain_letters.size() == 0x180 - 0xC0);

char32_t code_point(std::string_view character) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(character[i]); };
    switch (character.size()) {
    case 2:
        return (byte(0) & 0x1FU) << 6U | (byte(1) & 0x3FU);
    case 3:
        return (byte(0) & 0x0FU) << 12U | (byte(1) & 0x3FU) << 6U | (byte(2) & 0x3FU);
    default:
        return byte(0);
    }
}

/// What the character is to a comparison; empty: it parts words.
std::string compared(std::string_view character) {
    const char32_t c = code_point(character);
    if (character.size() == 1) {
        const char plain = lower_case(character).front();
        return (plain >= 'a' && plain <= 'z') || (plain >= '0' && plain <= '9') ? std::string(1, plain) : "";
    }
    if (c == 0xDF)
        return "ss";
    if (c == 0xC6 || c == 0xE6)
        return "ae";
    if (c == 0x152 || c == 0x153)
        return "oe";
    if (c == 0xB5 || c == 0x3BC)
        return "u"; // micro
    if (c >= 0xC0 && c < 0x180)
        return plain_letters[c - 0xC0] == ' ' ? "" : std::string(1, plain_letters[c - 0xC0]);
    // Marks of Latin-1 and of printing (dashes, quotation marks, superscripts, arrows, signs) part words;
    // letters of other scripts are themselves.
    const bool is_mark = (c >= 0x80 && c < 0xC0) || (c >= 0x2000 && c < 0x2C00);
    return is_mark ? "" : std::string(character);
}

} // namespace

std::string folded(std::string_view text) {
    std::string words;
    bool is_parted = false;
    while (!text.empty()) {
        const auto length = character_length(text);
        const auto more = length == 0 ? "" : compared(text.substr(0, length));
        if (more.empty()) {
            is_parted = !words.empty();
        } else {
            words += (is_parted ? " " : "") + more;
            is_parted = false;
        }
        text.remove_prefix(length == 0 ? 1 : length);
    }
    return words;
}

} // namespace mellowbin::exchange
