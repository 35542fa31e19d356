#include "exchange/text_tokens.h"

#include "core/typed_text.h"
#include "exchange/certificate_words.h"

#include <algorithm>

namespace mellowbin::exchange {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t character_at(std::string_view text, std::size_t at) {
    return std::max<std::size_t>(1, character_length(text.substr(at)));
}

/// Whether the character is part of a word: a letter of any script, or a digit behind one.
bool is_of_word(std::string_view text, std::size_t at) {
    return !folded(text.substr(at, character_at(text, at))).empty();
}

bool is_opening(const TextToken& token) { return token.words == "(" || token.words == "["; }
bool is_closing(const TextToken& token) { return token.words == ")" || token.words == "]"; }
bool is_parting(const TextToken& token) {
    return token.words == "," || token.words == ";" || token.words == ":";
}
bool is_joint(const TextToken& token) {
    return token.words == "-" || token.words == "/" || token.words == ".";
}

/// Whether the mark says nothing where it stands: at an end, behind an opening bracket or another such mark.
bool is_stray(const std::vector<TextToken>& tokens, std::size_t at) {
    const auto& token = tokens[at];
    const bool is_first = at == 0 || is_opening(tokens[at - 1]);
    const bool is_last = at + 1 == tokens.size() || is_closing(tokens[at + 1]);
    if (is_opening(token) && at + 1 < tokens.size() && is_closing(tokens[at + 1]))
        return true;
    if (is_closing(token) &&
        std::none_of(tokens.begin(), tokens.begin() + static_cast<std::ptrdiff_t>(at), is_opening))
        return true;
    if (is_joint(token))
        return is_first || is_last;
    return is_parting(token) && (is_first || is_last || is_parting(tokens[at - 1]));
}

} // namespace

std::vector<TextToken> tokens_of(std::string_view text) {
    std::vector<TextToken> tokens;
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = at + character_at(text, at);
        if (is_digit(text[at])) {
            while (end < text.size() &&
                   (is_digit(text[end]) || ((text[end] == '.' || text[end] == ',') && end + 1 < text.size() &&
                                            is_digit(text[end + 1]))))
                ++end;
            tokens.push_back({std::string(text.substr(at, end - at)), at, end, true, false});
        } else if (is_of_word(text, at)) {
            // "Nx5.7" is a word and a number, "H2O" is a word.
            const bool is_factor =
                lower_case(text.substr(at, 2)) == "nx" && at + 2 < text.size() && is_digit(text[at + 2]);
            while (end < text.size() && is_of_word(text, end) && !(is_factor && is_digit(text[end])))
                end += character_at(text, end);
            const auto word = text.substr(at, end - at);
            tokens.push_back({folded(word), at, end, false,
                              word.find_first_of("abcdefghijklmnopqrstuvwxyz") == std::string_view::npos});
        } else if (!trimmed(text.substr(at, end - at)).empty()) {
            tokens.push_back({std::string(text.substr(at, end - at)), at, end, false, false});
        }
        at = end;
    }
    return tokens;
}

std::string text_of(std::vector<TextToken> tokens, std::string_view text) {
    for (bool again = true; again;) {
        again = false;
        for (std::size_t i = 0; i < tokens.size() && !again; ++i)
            if (is_stray(tokens, i)) {
                tokens.erase(tokens.begin() + static_cast<std::ptrdiff_t>(i));
                again = true;
            }
    }
    std::string words;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (i > 0 && tokens[i].begin > tokens[i - 1].end && !is_opening(tokens[i - 1]) &&
            !is_closing(tokens[i]))
            words += ' ';
        words += text.substr(tokens[i].begin, tokens[i].end - tokens[i].begin);
    }
    return words;
}

} // namespace mellowbin::exchange
