#include "exchange/laid_out_text.h"
#include "exchange/page_words.h"
#include "exchange/text_encoding.h"
#include "support/catch.h"
#include "support/refusal_words.h"

#include <iconv.h>

namespace mellowbin::exchange {
namespace {

using testing::all_words;
using testing::says;
using Texts = std::vector<std::vector<std::string>>;

Texts fields_of(const Result<Sheet>& sheet) {
    INFO((sheet ? "" : all_words(sheet.refusals())));
    REQUIRE(sheet);
    Texts rows;
    for (const auto& row : sheet->rows) {
        rows.emplace_back();
        for (const auto& cell : row.cells)
            rows.back().push_back(cell.text);
    }
    return rows;
}

std::string refusal_of(const std::string& bytes, SheetKind kind = SheetKind::text,
                       const SheetLimits& limits = {}) {
    const auto sheet = read_laid_out_text(bytes, kind, limits);
    return sheet ? "was read" : all_words(sheet.refusals());
}

std::string utf16(const std::u16string& text, bool is_big_endian) {
    std::string bytes = is_big_endian ? "\xFE\xFF" : "\xFF\xFE";
    for (const char16_t unit : text) {
        const char high = static_cast<char>(unit >> 8U);
        const char low = static_cast<char>(unit & 0xFFU);
        bytes += is_big_endian ? high : low;
        bytes += is_big_endian ? low : high;
    }
    return bytes;
}

/// What the system's own table makes of a byte of Windows-1252; nothing where it has none.
std::optional<std::string> by_the_system(char byte) {
    const iconv_t table = iconv_open("UTF-8", "WINDOWS-1252");
    REQUIRE(table != reinterpret_cast<iconv_t>(-1));
    std::array<char, 8> out{};
    char* from = &byte;
    char* to = out.data();
    std::size_t from_left = 1, to_left = out.size();
    const bool is_done = iconv(table, &from, &from_left, &to, &to_left) == 0;
    iconv_close(table);
    if (!is_done)
        return {};
    return std::string(out.data(), to);
}

} // namespace

TEST_CASE("Text is read in UTF-8, UTF-16 and Windows-1252") {
    CHECK(*as_utf8("\xEF\xBB\xBFM\xC3\xBChle") == "Mühle");
    CHECK(*as_utf8("M\xFChle \x96 12 \x80") == "Mühle – 12 €");
    const std::u16string text = u"Mühle 10\u207B\u2074 J \U0001F35E";
    CHECK(*as_utf8(utf16(text, false)) == "Mühle 10⁻⁴ J 🍞");
    CHECK(*as_utf8(utf16(text, true)) == "Mühle 10⁻⁴ J 🍞");
}

TEST_CASE("Every byte of Windows-1252 is the character of the system's table") {
    int read = 0;
    for (int byte = 0x80; byte <= 0xFF; ++byte) {
        INFO(byte);
        const char one = static_cast<char>(byte);
        const auto ours = as_utf8(std::string(1, one));
        const auto theirs = by_the_system(one);
        REQUIRE(bool(ours) == theirs.has_value());
        if (theirs) {
            CHECK(*ours == *theirs);
            ++read;
        }
    }
    CHECK(read == 128 - 5);
}

TEST_CASE("What is no text is refused by its line") {
    CHECK(says(refusal_of(std::string("a\nb\0c", 5)), "Line 2: a control character (00) was read"));
    CHECK(says(refusal_of("a\n\x1B[0m"), "Line 2"));
    CHECK(says(refusal_of("a\nb\nM\xFChle \x81"),
               "Line 3: the byte 81 was read, which is neither UTF-8 nor Windows-1252"));
    CHECK(says(refusal_of(utf16(u"ab", false) + "c"), "it is torn"));
    CHECK(says(refusal_of(utf16(std::u16string{u'a', u'\n', char16_t{0xD83C}, u'b'}, true)),
               "Line 2: the text is UTF-16, and half a character"));
    // PDF, pictures and the like are full of control characters.
    CHECK(says(refusal_of("\x89PNG\r\n\x1A\n"), "this is no plain text"));
}

TEST_CASE("Text that was not UTF-8 says so") {
    const auto sheet = read_laid_out_text("M\xFChle  Ostfeld");
    REQUIRE(sheet);
    REQUIRE(sheet->notes.size() == 1);
    CHECK(says(sheet->notes.front(), "Windows-1252"));
    CHECK(read_laid_out_text("Mühle  Ostfeld")->notes.empty());
}

TEST_CASE("Separators part fields where half the lines hold one, and blanks part them else") {
    CHECK(fields_of(read_laid_out_text("Protein\t12.5\t%\nAsh\t0.5\t%\n")) ==
          Texts{{"Protein", "12.5", "%"}, {"Ash", "0.5", "%"}});
    CHECK(fields_of(read_laid_out_text("Protein;12,5;%\r\nAsh;;%\r\n")) ==
          Texts{{"Protein", "12,5", "%"}, {"Ash", "", "%"}});
    CHECK(fields_of(read_laid_out_text("| Protein | 12.5 |\n|---------|------|\n| Ash | 0.5 |\n")) ==
          Texts{{"", "Protein", "12.5", ""}, {"", "Ash", "0.5", ""}});
    CHECK(fields_of(read_laid_out_text("lot,protein,ash\nA,12.5,0.5\n")) ==
          Texts{{"lot", "protein", "ash"}, {"A", "12.5", "0.5"}});
    CHECK(fields_of(read_laid_out_text("sep=;\nlot;a,b\nA;1,5\n")) == Texts{{"lot", "a,b"}, {"A", "1,5"}});
    // A decimal comma parts nothing, and a single blank neither.
    CHECK(fields_of(read_laid_out_text("Wet gluten   30,5 %\nFalling number  320 s\n")) ==
          Texts{{"Wet gluten", "30,5 %"}, {"Falling number", "320 s"}});
    CHECK(fields_of(read_laid_out_text("Dear Sir, hello\nProtein 12,5\nAsh 0,5\n")) ==
          Texts{{"Dear Sir, hello"}, {"Protein 12,5"}, {"Ash 0,5"}});
    // A semicolon in brackets is one of the head's words.
    CHECK(fields_of(read_laid_out_text("damaged starch % (14 %; AACC 76-31)\n7.2\n")) ==
          Texts{{"damaged starch % (14 %; AACC 76-31)"}, {"7.2"}});
}

TEST_CASE("A quoted field holds separators and line ends; one that is not closed is torn") {
    const auto sheet = read_laid_out_text("lot;head\nA;\"one; \"\"two\"\"\nthree\"\nB;x\n");
    CHECK(fields_of(sheet) == Texts{{"lot", "head"}, {"A", "one; \"two\"\nthree"}, {"B", "x"}});
    CHECK(sheet->rows[2].line == 4);
    CHECK(says(refusal_of("a;b\nA;\"torn\nB;c\n"), "Line 2: a quoted field that begins \"torn"));
    CHECK(read_laid_out_text("a;b\n1;2")->notes.size() == 1); // cut off?
}

TEST_CASE("A row of empty fields is left out, however its lines are broken") {
    CHECK(fields_of(read_laid_out_text("Ash\n\u202F\n\u00A0 |\n0.5\n")) == Texts{{"Ash"}, {"0.5"}});
    CHECK(fields_of(read_laid_out_text("a,b\n1,2\n,\n\"\",\" \"\n3,4\n")) ==
          Texts{{"a", "b"}, {"1", "2"}, {"3", "4"}});
    CHECK(fields_of(read_laid_out_text("sep=,\na,b\n1,\"2\r\r\"\n,\n3,4\n")) ==
          Texts{{"a", "b"}, {"1", "2"}, {"3", "4"}});
}

TEST_CASE("Places in text are named by line and field, on pages by the page") {
    const auto text = read_laid_out_text("first\n\nLot  4711\n");
    REQUIRE(text);
    CHECK(where(*text, 0, 0) == "line 1");
    CHECK(where(*text, 1, 1) == "line 3, column 2");
    CHECK(text->rows[1].cells[1].from == 6);
    CHECK(text->rows[1].cells[1].to == 9);
    CHECK(source_line(*text, 1) == "Lot  4711");
    const auto pages = read_laid_out_text("one\n\ftwo  x\n");
    CHECK(pages->kind == SheetKind::pages);
    CHECK(where(*pages, 1, 0) == "page 2, line 1, column 1");
    CHECK(column_letters(0) == "A");
    CHECK(column_letters(25) == "Z");
    CHECK(column_letters(26) == "AA");
    CHECK(column_letters(16'383) == "XFD"); // the last of a spreadsheet
}

TEST_CASE("More text than a certificate has is refused by what is too much") {
    SheetLimits limits;
    limits.lines = 3;
    CHECK(says(refusal_of("a\nb\nc\nd\n", SheetKind::text, limits), "4 lines"));
    limits = {};
    limits.cells = 3;
    CHECK(says(refusal_of("a  b\nc  d\n", SheetKind::text, limits), "Line 2"));
    limits = {};
    limits.columns = 2;
    CHECK(says(refusal_of("a\tb\tc\n", SheetKind::text, limits), "Line 1: 3 fields were read"));
    limits = {};
    limits.file_bytes = 3;
    CHECK(says(refusal_of("abcd", SheetKind::text, limits), "4 bytes"));
    CHECK(says(refusal_of(std::string(600, '\f'), SheetKind::pages), "pages; 500 at most"));
}

TEST_CASE("The words of a PDF come together as lines and fields by where they lie") {
    const std::string head =
        "level\tpage_num\tpar_num\tblock_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n";
    const auto word = [](int page, double left, double top, double width, const std::string& text,
                         double height = 10) {
        return fmt::format("5\t{}\t1\t0\t0\t0\t{}\t{}\t{}\t{}\t100\t{}\n", page, left, top, width, height,
                           text);
    };
    // The second column begins in the file before the first; a raised figure is of its line.
    const auto text = head + "1\t1\t0\t0\t0\t0\t0\t0\t595\t842\t-1\t###PAGE###\n" +
                      word(1, 200, 50, 20, "12.5") + word(1, 50, 50.4, 20, "Wet") +
                      word(1, 72.5, 50.4, 30, "gluten") + word(1, 50, 80, 10, "10") +
                      word(1, 60.2, 78, 6, "-4", 7) + word(1, 68.7, 80, 5, "J") + word(2, 50, 50, 20, "Next");
    CHECK(are_page_words(text));
    const auto sheet = read_laid_out_text(text, SheetKind::pages);
    CHECK(fields_of(sheet) == Texts{{"Wet gluten", "12.5"}, {"10-4 J"}, {"Next"}});
    CHECK(sheet->rows[1].line == 2);
    CHECK(sheet->rows[2].page == 2);
    CHECK(sheet->rows[2].line == 1);
    CHECK(sheet->rows[0].cells[1].from == 201);

    CHECK(says(refusal_of(head + "5\t1\t1\n", SheetKind::pages), "Line 2"));
    CHECK(says(refusal_of(head + word(1, 1e300, 0, 1, "x"), SheetKind::pages), "no place on its page"));
    CHECK(says(refusal_of(head + word(501, 1, 1, 1, "x"), SheetKind::pages), "more than 500 pages"));
}

} // namespace mellowbin::exchange
