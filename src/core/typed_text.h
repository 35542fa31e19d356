#pragma once

#include <string>
#include <string_view>

namespace mellowbin {

/// Text as a person typed it, without the blanks around it: space, tab, line break, and the thin and
/// unbreakable spaces (U+00A0, U+2009, U+202F) that come along when a figure is copied from a page.
std::string_view trimmed(std::string_view text);

/// What was read, short enough for a message: the first 40 bytes at most, cut between characters and never
/// inside one; control characters and bytes that are no UTF-8 are shown as "?".
std::string excerpt(std::string_view text);

/// The bytes of the UTF-8 character that begins here; 0 where none does (a stray byte, a form longer than
/// need be, a surrogate, a code point past U+10FFFF).
std::size_t character_length(std::string_view text);

/// The words alone, for looking up: lower case of A to Z, without any blanks.
std::string bare_words(std::string_view text);

/// The same words, whatever the case of A to Z and the blanks between them.
bool same_words(std::string_view a, std::string_view b);

/// Lower case of A to Z; everything else stays as it is.
std::string lower_case(std::string_view text);

} // namespace mellowbin
