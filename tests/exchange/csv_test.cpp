#include "exchange/csv.h"
#include "support/fixture_file.h"
#include "support/refusal_words.h"

#include <array>
#include <random>

namespace mellowbin {
namespace {

using testing::all_words;
using testing::fixture;
using testing::says;

CsvTable table_of(std::string_view bytes) {
    auto table = read_csv(bytes);
    INFO((table ? "" : all_words(table.refusals())));
    REQUIRE(table);
    return *std::move(table);
}

std::string why_not(std::string_view bytes) {
    const auto table = read_csv(bytes);
    REQUIRE(!table);
    return all_words(table.refusals());
}

using Fields = std::vector<std::string>;

} // namespace

TEST_CASE("Records end with CRLF, LF or CR, the last one with nothing, too") {
    for (const char* bytes :
         {"a,b\r\n1,2\r\n3,4\r\n", "a,b\n1,2\n3,4\n", "a,b\r1,2\r3,4\r", "a,b\n1,2\r\n3,4"}) {
        INFO(bytes);
        const auto table = table_of(bytes);
        CHECK(table.heads == Fields{"a", "b"});
        REQUIRE(table.rows.size() == 2);
        CHECK(table.rows[0].fields == Fields{"1", "2"});
        CHECK(table.rows[1].fields == Fields{"3", "4"});
        CHECK(table.rows[1].line == 3);
    }
    CHECK(table_of("a,b\n1,2\n").ends_with_line_break);
    CHECK(!table_of("a,b\n1,2").ends_with_line_break);
}

TEST_CASE("Quoted fields hold separators, line breaks and doubled marks; blanks are data") {
    const auto table = table_of("a,b,c\n\"1,5\",\"two\r\nlines\",\"said \"\"yes\"\"\"\n x ,\"\"\"\",\n");
    CHECK(table.rows[0].fields == Fields{"1,5", "two\r\nlines", "said \"yes\""});
    CHECK(table.rows[0].line == 2);
    CHECK(table.rows[1].fields == Fields{" x ", "\"", ""});
}

TEST_CASE("A record knows the line it begins on, whatever runs over lines before it") {
    const auto table = table_of(fixture("hostile/csv_mixed_line_ends.csv"));
    REQUIRE(table.rows.size() == 3);
    CHECK(table.rows[0].line == 2);
    CHECK(table.rows[1].line == 4);
    CHECK(table.rows[2].line == 5);
    CHECK(table.rows[2].fields == Fields{"M-3", "1002", "said \"yes\""});
}

TEST_CASE("The head line says whether commas, semicolons or tabs separate") {
    CHECK(table_of("a;b\n1,5;2\n").rows[0].fields == Fields{"1,5", "2"});
    CHECK(table_of("a\tb\n1,5\t2;3\n").rows[0].fields == Fields{"1,5", "2;3"});
    CHECK(table_of("\"a;b;c\",d\n1,2\n").heads == Fields{"a;b;c", "d"});
    CHECK(table_of("a,b % (14 % moisture; ISO 1; x)\n1,2\n").separator == ',');
    CHECK(table_of("one\n1\n").heads == Fields{"one"});
    CHECK(table_of("\n\r\na;b\n1;2\n").heads == Fields{"a", "b"});
    CHECK(table_of("\n\r\na;b\n1;2\n").rows[0].line == 4);
}

TEST_CASE("A byte order mark and a line that names the separator are skipped") {
    const auto table = table_of("\xEF\xBB\xBFsep=;\r\na;b,c\r\n1;2\r\n");
    CHECK(table.heads == Fields{"a", "b,c"});
    CHECK(table.head_line == 2);
    CHECK(table.rows[0].line == 3);
    CHECK(table_of("sep=x\n1\n").heads == Fields{"sep=x"});
}

TEST_CASE("Empty lines and lines of empty fields are no records") {
    const auto table = table_of("a,b\n\n1,2\n,\n \t, \n3,4\n\n");
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[1].line == 6);
}

TEST_CASE("A file that is no UTF-8 is refused with the line and the byte") {
    CHECK(says(why_not(fixture("hostile/csv_windows_1252.csv")), "Line 3: the byte DC was read"));
    CHECK(says(why_not(fixture("hostile/csv_utf16.csv")), "UTF-16; UTF-8 is expected"));
    CHECK(says(why_not(fixture("hostile/csv_nul_byte.csv")), "Line 2: a NUL byte"));
    CHECK(says(why_not("a\r\xC3"), "Line 2"));
    CHECK(table_of("a\nM\xC3\x9CHLE-7 \xF0\x9F\x8D\x9E\n").rows[0].fields[0] ==
          "M\xC3\x9CHLE-7 \xF0\x9F\x8D\x9E");
}

TEST_CASE("A file torn inside a quoted field is refused with the line where the field begins") {
    const auto words = why_not(fixture("hostile/csv_torn_in_a_quote.csv"));
    CHECK(says(words, "Line 3: a quoted field that begins \"G-2, the one from the wet\" is not closed"));
    CHECK(says(why_not("a,b\n1,\"x\n\n\ny"), "Line 2"));
    CHECK(says(why_not("a,\""), "Line 1"));
}

TEST_CASE("Quotation marks in the wrong place are refused, not guessed at") {
    CHECK(says(why_not("a,b\n1,5\"\n"),
               "Line 2: a quotation mark was read in the midst of a field, after \"5\""));
    CHECK(says(why_not("a,b\n\"1\"2,3\n"), "Line 2: \"2,3\" was read after a closing quotation mark"));
    CHECK(says(why_not("a,b\n1, \"2\"\n"), "Line 2"));
}

TEST_CASE("Records with too few or too many fields are refused, every line named") {
    const auto words = why_not("a,b\n1\n1,2\n1,2,3\n");
    CHECK(says(words, "Line 2: 1 fields were read; 2 are expected"));
    CHECK(!says(words, "Line 3:"));
    CHECK(says(words, "Line 4: 3 fields were read; 2 are expected"));
    CHECK(says(why_not(fixture("hostile/csv_decimal_comma_among_commas.csv")), "A decimal comma"));
    CHECK(says(why_not("a,b\n1,2,\n"), "3 fields")); // an empty one more may be a decimal comma's shift
    const auto kept = read_csv("a,b\n1\n1,2\n", RaggedRows::keep);
    REQUIRE(kept);
    CHECK(kept->rows.size() == 2);
}

TEST_CASE("Two columns of the same head are refused, whatever their case and blanks") {
    CHECK(says(why_not(fixture("hostile/csv_duplicate_heads.csv")),
               "Line 1: the head \"Weight  KG\" stands over two"));
    CHECK(table_of("a,,\n1,2,3\n").heads == Fields{"a", "", ""});
}

TEST_CASE("An empty file is refused; a head line alone is a table without records") {
    for (const char* bytes : {"", "\n", "\xEF\xBB\xBF", " \r\n", "sep=;\n"}) {
        INFO(bytes);
        CHECK(says(why_not(bytes), "the file is empty"));
    }
    CHECK(table_of("a,b\n").rows.empty());
}

TEST_CASE("A field of a megabyte and two hundred thousand records are read whole") {
    const std::string big(1 << 20, 'x');
    CHECK(table_of("a,b\n\"" + big + "\",2\n").rows[0].fields[0] == big);
    std::string many = "a,b\n";
    for (int i = 0; i < 200'000; ++i)
        many += "1,2\n";
    CHECK(table_of(many).rows.size() == 200'000);
    CHECK(table_of(many).rows.back().line == 200'001);
}

TEST_CASE("What the writer writes, the reader reads back") {
    std::mt19937 random{20261125};
    constexpr std::array<std::string_view, 9> pieces{"a", ",", ";", "\"", "\r\n", "\n", "é", " ", "5"};
    std::uniform_int_distribution<std::size_t> piece{0, pieces.size() - 1};
    std::uniform_int_distribution<int> length{0, 6};
    constexpr std::array<std::string_view, 3> heads{"lot number", "note", "weight kg"};
    CsvWriter writer(heads);
    std::vector<Fields> written;
    for (int i = 0; i < 500; ++i) {
        Fields fields{"W" + std::to_string(i), "n", ""};
        for (int k = length(random); k > 0; --k)
            fields[1] += pieces[piece(random)];
        fields[2] = std::to_string(i * 25);
        writer.text(fields[0]).text(fields[1]).number(std::int64_t{i} * 25).end_row();
        written.push_back(fields);
    }
    const auto table = table_of(writer.bytes());
    CHECK(table.heads == Fields{"lot number", "note", "weight kg"});
    REQUIRE(table.rows.size() == written.size());
    for (std::size_t i = 0; i < written.size(); ++i)
        REQUIRE(table.rows[i].fields == written[i]);
}

TEST_CASE("The writer quotes text, guards it against being taken for a formula, and leaves numbers alone") {
    constexpr std::array<std::string_view, 3> heads{"note", "change", "share"};
    CsvWriter writer(heads);
    writer.text("=1+1").number(std::int64_t{-5}).number(-0.125, 2).end_row();
    writer.text("@x \"y\"").missing().number(12.345, 1).end_row();
    for (const char* formula : {"+1", "-1", "\tx", "\rx"})
        writer.text(formula).missing().missing().end_row();
    writer.text("plain = fine").missing().missing().end_row();
    CHECK(writer.bytes().substr(0, writer.bytes().find("\"'+1")) ==
          "\xEF\xBB\xBF\"note\",\"change\",\"share\"\r\n\"'=1+1\",-5,-0.12\r\n\"'@x \"\"y\"\"\",,12.3\r\n");
    for (const char* guarded : {"\"'+1\"", "\"'-1\"", "\"'\tx\"", "\"'\rx\"", "\"plain = fine\""})
        CHECK(says(writer.bytes(), guarded));
}

} // namespace mellowbin
