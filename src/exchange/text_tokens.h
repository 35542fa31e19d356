#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// A piece of a text: a word, a number, or a mark.
struct TextToken {
    std::string words; ///< folded(); of a number as it stands; of a mark the mark
    std::size_t begin = 0, end = 0;
    bool is_number = false;
    bool is_capital = false; ///< a word without small letters
};
std::vector<TextToken> tokens_of(std::string_view text);

/// The text of some of its tokens, in their order, without brackets that are empty then and marks that part
/// nothing.
std::string text_of(std::vector<TextToken> tokens, std::string_view text);

} // namespace mellowbin::exchange
