#include "core/typed_text.h"

namespace mellowbin {
namespace {

constexpr std::string_view no_break_space = "\xC2\xA0";
constexpr std::string_view narrow_no_break_space = "\xE2\x80\xAF";
constexpr std::string_view thin_space = "\xE2\x80\x89";
constexpr std::string_view blanks[] = {" ",       "\t", "\r", "\n", no_break_space, narrow_no_break_space,
                                       thin_space};

unsigned byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

} // namespace

std::string_view trimmed(std::string_view text) {
    bool again = true;
    while (again) {
        again = false;
        for (const auto blank : blanks) {
            if (text.starts_with(blank)) {
                text.remove_prefix(blank.size());
                again = true;
            }
            if (text.ends_with(blank)) {
                text.remove_suffix(blank.size());
                again = true;
            }
        }
    }
    return text;
}

std::size_t character_length(std::string_view text) {
    if (text.empty())
        return 0;
    const unsigned first = byte_at(text, 0);
    if (first < 0x80)
        return 1;
    // A form longer than need be would begin with C0, C1, or with E0 or F0 and a small second byte.
    const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                               : first >= 0xE0 && first <= 0xEF ? 3
                               : first >= 0xF0 && first <= 0xF4 ? 4
                                                                : 0;
    if (length == 0 || text.size() < length)
        return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte_at(text, i) & 0xC0) != 0x80)
            return 0;
    const unsigned second = byte_at(text, 1);
    const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
    const bool surrogate = first == 0xED && second >= 0xA0;
    const bool past_the_end = first == 0xF4 && second >= 0x90;
    return overlong || surrogate || past_the_end ? 0 : length;
}

std::string excerpt(std::string_view text) {
    constexpr std::size_t longest_shown = 40;
    std::string shown;
    while (!text.empty()) {
        const std::size_t length = character_length(text);
        const std::size_t step = length == 0 ? 1 : length;
        if (shown.size() + step > longest_shown)
            return shown + "…";
        const bool is_control = length == 1 && (byte_at(text, 0) < 0x20 || byte_at(text, 0) == 0x7F);
        if (length == 0 || is_control)
            shown += '?';
        else
            shown += text.substr(0, length);
        text.remove_prefix(step);
    }
    return shown;
}

std::string lower_case(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    return out;
}

std::string bare_words(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const auto rest = trimmed(text);
        const auto blank = rest.find_first_of(" \t\r\n");
        out += lower_case(rest.substr(0, blank));
        text = blank == std::string_view::npos ? std::string_view{} : rest.substr(blank);
    }
    return out;
}

bool same_words(std::string_view a, std::string_view b) { return bare_words(a) == bare_words(b); }

} // namespace mellowbin
