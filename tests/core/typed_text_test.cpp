#include "core/typed_text.h"
#include "support/catch.h"

namespace mellowbin {

TEST_CASE("The blanks around what was typed go, those inside stay") {
    CHECK(trimmed("  12 4 \t\r\n") == "12 4");
    CHECK(trimmed("\xC2\xA0"
                  "12\xE2\x80\xAF") == "12");
    CHECK(trimmed(" \xC2\xA0 ").empty());
    CHECK(trimmed("").empty());
    CHECK(trimmed("\xC2") == "\xC2");
}

TEST_CASE("An excerpt is short, whole characters only, and always UTF-8") {
    CHECK(excerpt("11.85") == "11.85");
    CHECK(excerpt(std::string(50, 'a')) == std::string(40, 'a') + "…");
    const std::string umlauts = "xüüüüüüüüüüüüüüüüüüüüüüüü"; // the cut at 40 bytes would fall into a letter
    CHECK(excerpt(umlauts) == umlauts.substr(0, 39) + "…");
    CHECK(excerpt("a\nb\x01"
                  "c\xFF") == "a?b?c?");
    CHECK(excerpt(std::string_view("a\0b", 3)) == "a?b");
}

TEST_CASE("A character's bytes are counted only where it is one") {
    CHECK(character_length("a") == 1);
    CHECK(character_length("é") == 2);
    CHECK(character_length("€") == 3);
    CHECK(character_length("\xF0\x9F\x8D\x9E") == 4);
    CHECK(character_length("") == 0);
    CHECK(character_length("\x80") == 0);
    CHECK(character_length("\xC3") == 0);             // torn
    CHECK(character_length("\xC3(") == 0);            // the second byte is none
    CHECK(character_length("\xC0\xAF") == 0);         // longer than need be
    CHECK(character_length("\xE0\x80\xAF") == 0);     // longer than need be
    CHECK(character_length("\xED\xA0\x80") == 0);     // a surrogate
    CHECK(character_length("\xF4\x90\x80\x80") == 0); // past U+10FFFF
    CHECK(character_length("\xFF") == 0);
}

TEST_CASE("Words are the same whatever their case and blanks") {
    CHECK(same_words("AACC 76-31", " aacc76-31 "));
    CHECK(!same_words("AACC 76-31", "AACC 76-30A"));
    CHECK(same_words("", "  "));
    CHECK(lower_case("MÜHLE 7") == "mÜhle 7");
}

} // namespace mellowbin
