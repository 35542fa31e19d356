#include "exchange/certificate_paper.h"
#include "exchange/number_format.h"
#include "exchange/xlsx.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/packed_parts.h"
#include "support/refusal_words.h"

namespace mellowbin::exchange {
namespace {

using testing::all_words;
using testing::fixture;
using testing::says;
using testing::spreadsheet;

/// The only sheet of a spreadsheet with these rows.
Sheet sheet_of(const std::string& bytes) {
    auto sheets = read_xlsx(bytes);
    INFO((sheets ? "" : all_words(sheets.refusals())));
    REQUIRE(sheets);
    REQUIRE(sheets->size() == 1);
    return sheets->front();
}

std::string refusal_of(const std::string& bytes, const SheetLimits& limits = {}) {
    const auto sheets = read_xlsx(bytes, limits);
    return sheets ? "was read" : all_words(sheets.refusals());
}

std::vector<std::string> texts_of(const SheetRow& row) {
    std::vector<std::string> texts;
    for (const auto& cell : row.cells)
        texts.push_back(cell.trouble.empty() ? cell.text : "! " + cell.trouble);
    return texts;
}

} // namespace

TEST_CASE("A spreadsheet that LibreOffice wrote is read as its cells show it") {
    const auto sheets = read_xlsx(fixture("certificates/spreadsheet.xlsx"));
    REQUIRE(sheets);
    REQUIRE(sheets->size() == 2);
    const auto& lots = sheets->front();
    CHECK(lots.name == "Lots");
    REQUIRE(lots.rows.size() == 7); // an empty one is left out
    CHECK(lots.rows[2].line == 4);
    // Zeros in front, days, a unit in the format, percent cells; of row 6 the weight and the gluten are
    // formulas.
    CHECK(texts_of(lots.rows[4]) == std::vector<std::string>{"0422", "2026-11-03", "2027-11-03", "6250 kg",
                                                             "13.95 %", "13.65 %", "0.61 %", "338", "30.1",
                                                             "4080"});
    CHECK(where(lots, 4, 3) == "Lots!D6");
    CHECK(lots.rows[4].cells[8].is_number);
    CHECK(!lots.rows[4].cells[1].is_number);
}

TEST_CASE("A formula that came to an error is in trouble by its name") {
    const auto sheet = sheet_of(fixture("certificates/spreadsheet_errors.xlsx"));
    CHECK(sheet.rows[1].cells[3].trouble == "#DIV/0!");
    CHECK(sheet.rows[1].cells[3].text.empty());
    CHECK(sheet.rows[2].cells[4].trouble == "#N/A");
    CHECK(where(sheet, 1, 3) == "D2"); // of the only sheet no name stands in front
}

TEST_CASE("Cells are read by their type, and one without a result is never a zero") {
    const auto sheet = sheet_of(
        spreadsheet("<row r=\"3\"><c r=\"A3\" t=\"inlineStr\"><is><t>Lot </t><r><t>W&amp;1</t></r></is></c>"
                    "<c r=\"B3\"><f>1+1</f></c><c r=\"C3\"><f>1+1</f><v></v></c>"
                    "<c r=\"D3\" t=\"str\"><f>A3</f><v>text</v></c><c r=\"E3\" t=\"b\"><v>1</v></c>"
                    "<c r=\"F3\" t=\"e\"><v>#REF!</v></c><c r=\"H3\"><v>1.4500000000000002</v></c>"
                    "<c r=\"I3\"><v>12345678901234567890</v></c><c r=\"J3\"><v>1E+5</v></c>"
                    "<c r=\"K3\" t=\"d\"><v>2026-11-02T00:00:00</v></c><c r=\"L3\"><v>12,5</v></c></row>"));
    REQUIRE(sheet.rows.size() == 1);
    CHECK(texts_of(sheet.rows[0]) ==
          std::vector<std::string>{"Lot W&1", "! a formula without a result", "! a formula without a result",
                                   "text", "TRUE", "! #REF!", "", "1.45",
                                   "! a number with more digits than a spreadsheet keeps", "100000",
                                   "2026-11-02", "! \"12,5\" stands there, which is no number"});
}

TEST_CASE("Days are counted from the day that the file says") {
    auto parts = testing::spreadsheet_parts(
        "<row r=\"1\"><c r=\"A1\" s=\"1\"><v>46328</v></c><c r=\"B1\" s=\"1\"><v>12</v></c></row>");
    const std::string styles =
        "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><cellXfs>"
        "<xf numFmtId=\"0\"/><xf numFmtId=\"14\"/></cellXfs></styleSheet>";
    parts.push_back({"xl/styles.xml", styles});
    auto& relations = parts[2].content;
    relations.insert(relations.find("</Relationships>"),
                     "<Relationship Id=\"rId2\" Type=\"x/styles\" Target=\"/xl/styles.xml\"/>");
    // 46328 is 2026-11-02: the groundwork's own serial, and what LibreOffice writes for that day.
    auto sheet = sheet_of(testing::packed(parts));
    CHECK(sheet.rows[0].cells[0].text == "2026-11-02");
    CHECK(sheet.rows[0].cells[1].trouble == "12 stands there as a day, which is none");

    auto& workbook = parts[1].content;
    workbook.insert(workbook.find("<sheets>"), "<workbookPr date1904=\"1\"/>");
    sheet = sheet_of(testing::packed(parts));
    CHECK(sheet.rows[0].cells[0].text == "2030-11-03"); // 1,462 days on
}

TEST_CASE("What a person cannot see in a spreadsheet does not become a lot") {
    const auto rows =
        "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row><row r=\"2\" hidden=\"1\"><c r=\"A2\"><v>2</v></c></row>";
    auto parts = testing::spreadsheet_parts(rows);
    auto& workbook = parts[1].content;
    workbook.insert(workbook.find("</sheets>"),
                    "<sheet name=\"Old\" sheetId=\"9\" state=\"hidden\" r:id=\"rId9\"/>");
    auto& relations = parts[2].content;
    relations.insert(relations.find("</Relationships>"),
                     "<Relationship Id=\"rId9\" Type=\"x/worksheet\" Target=\"worksheets/none.xml\"/>");
    const auto sheet = sheet_of(testing::packed(parts));
    CHECK(sheet.rows.size() == 1);
    CHECK(sheet.notes == std::vector<std::string>{"The sheet \"Old\" is hidden and was not read",
                                                  "Hidden rows were not read: 2"});
}

TEST_CASE("A number is shown by its format, with no digit added") {
    const auto shown = [](double value, const char* code) {
        return shown_number(value, read_number_format(code), DayCount::from_1900);
    };
    CHECK(shown(0.142, "0.00 %") == "14.2 %");
    CHECK(shown(0.14237, "0%") == "14.237 %");
    CHECK(shown(46328, "DD.MM.YYYY") == "2026-11-02");
    CHECK(shown(46328, "[$-407]d. mmmm yyyy;@") == "2026-11-02");
    CHECK(shown(46328.25, "yyyy-mm-dd hh:mm") == "2026-11-02 06:00");
    CHECK(shown(46328, "mmm yyyy") == "2026-11"); // a month has no day
    CHECK(shown(0.25, "h:mm") == "06:00");
    CHECK(shown(25, "0.0\" kg\"") == "25 kg");
    CHECK(shown(25000, "#,##0.0,\\ \"t\"") == "25 t");
    CHECK(shown(12.5, "General") == "12.5");
    CHECK(shown(12, "0000") == "0012");
    CHECK(shown(14.2, "0.0\\%") == "14.2%"); // a mark of its own: nothing is multiplied
    CHECK(shown(3, "[Red]0;[Blue]-0") == "3");
    CHECK(shown(-3.5, "#,##0.00_);(#,##0.00)") == "-3.5");
    CHECK(shown(60, "yyyy-mm-dd").empty()); // 1900-02-29 never was
    CHECK(shown(61, "yyyy-mm-dd") == "1900-03-01");
    CHECK(known_number_format(10).kind == NumberFormat::Kind::percent);
    CHECK(known_number_format(14).kind == NumberFormat::Kind::day);
    CHECK(known_number_format(2).kind == NumberFormat::Kind::plain);
}

TEST_CASE("A packed file that would unpack out of all proportion is refused before it is unpacked") {
    auto parts = testing::spreadsheet_parts("");
    parts.push_back({"xl/media/zeros.bin", std::string(20'000'000, '0')});
    CHECK(says(refusal_of(testing::packed(parts)), "would unpack from"));

    // A directory that says little of what unpacks to much: no more than it says is ever written.
    auto lying = testing::spreadsheet_parts("<row r=\"1\">" + std::string(500'000, ' ') + "</row>");
    lying[3].stated_bytes = 1'000;
    CHECK(says(refusal_of(testing::packed(lying)), "cannot be unpacked"));

    auto many = testing::spreadsheet_parts("");
    for (int i = 0; i < 30; ++i) {
        many.push_back({"xl/" + std::to_string(i), std::string(400'000, 'x'), false});
        if (i > 0)
            many.back().same_bytes_as = 4;
    }
    SheetLimits limits;
    limits.unpacked_bytes = 10'000'000;
    CHECK(says(refusal_of(testing::packed(many), limits), "would unpack to"));
    CHECK(says(refusal_of(testing::packed(many)), "lie over each other"));
}

TEST_CASE("A spreadsheet with more cells or columns than any certificate is refused by the cell") {
    SheetLimits limits;
    limits.cells = 5;
    const std::string rows = "<row r=\"1\"><c r=\"A1\"><v>1</v></c><c r=\"D1\"><v>1</v></c></row><row "
                             "r=\"2\"><c r=\"B2\"><v>1</v></c></row>";
    CHECK(says(refusal_of(spreadsheet(rows), limits), "Sheet \"Lots\", B2: the file has more than 5 cells"));
    CHECK(says(refusal_of(spreadsheet("<row r=\"1\"><c r=\"XFD1\"><v>1</v></c></row>")),
               "XFD1: lies beyond column ALL"));

    limits = {};
    limits.file_bytes = 1'000;
    CHECK(says(refusal_of(spreadsheet(rows) + std::string(1'000, ' '), limits), "1000 at most are read"));
}

TEST_CASE("Too many cells are found out while they are read, wherever the file says they stand") {
    SheetLimits limits;
    limits.cells = 40'000;
    std::string rows;
    for (int row = 1; row <= 2'001; ++row) {
        rows += "<row>";
        for (int i = 0; i < 20; ++i)
            rows += "<c><v>" + std::to_string(row * 7919 % 1000 + i) + "</v></c>";
        rows += "</row>";
    }
    CHECK(says(refusal_of(spreadsheet(rows), limits), "A2001: the file has more than 40000 cells"));
    limits.cells = 40'020;
    CHECK(refusal_of(spreadsheet(rows), limits) == "was read");
}

TEST_CASE("A torn, bent or locked spreadsheet is refused in words") {
    const auto whole = fixture("certificates/spreadsheet.xlsx");
    REQUIRE(read_xlsx(whole));
    for (const std::size_t left :
         {std::size_t{4}, std::size_t{100}, whole.size() / 2, whole.size() - 30, whole.size() - 1})
        CHECK(says(refusal_of(whole.substr(0, left)), "the file is torn"));
    // A bit that flips within a part is found by its check sum, never read as another figure.
    int refused = 0;
    for (std::size_t at = 0; at < whole.size(); at += 97) {
        auto bent = whole;
        bent[at] = static_cast<char>(bent[at] ^ 0x10);
        const auto sheets = read_xlsx(bent);
        refused += sheets ? 0 : 1;
        if (sheets)
            CHECK(*sheets == *read_xlsx(whole)); // the bit was of a time, or of a part that is not read
    }
    CHECK(refused > 30);

    auto parts = testing::spreadsheet_parts("");
    parts[3].flags = 1;
    CHECK(says(refusal_of(testing::packed(parts)), "is encrypted"));
    parts[3].flags = 0;
    parts[3].method = 12;
    CHECK(says(refusal_of(testing::packed(parts)), "in a way (12)"));
    parts[3].method = {};
    parts[3].stated_check = 1;
    CHECK(says(refusal_of(testing::packed(parts)), "check sum"));
    CHECK(says(refusal_of(spreadsheet("<row r=\"1\"><c r=\"A1\"><v>1</c></row>")), "is no XML"));
    CHECK(says(refusal_of(spreadsheet("<row r=\"1\"><c r=\"A1\" t=\"s\"><v>3</v></c></row>")),
               "a text that the file does not hold"));
    CHECK(says(refusal_of(testing::packed({{"word/document.xml", "<x/>"}})), "is missing"));
}

TEST_CASE("A part that ends anywhere before its end is refused, and read no further than it goes") {
    const auto whole = testing::spreadsheet_parts("<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>");
    for (std::size_t i = 0; i < whole.size(); ++i) {
        const auto& content = whole[i].content;
        for (std::size_t length = 0; length < content.size(); ++length) {
            auto parts = whole;
            parts[i].content = content.substr(0, length);
            const auto sheets = read_xlsx(testing::packed(parts));
            if (sheets && !(*sheets == *read_xlsx(testing::packed(whole)))) // some parts are not asked for
                FAIL_CHECK(whole[i].name << " taken at " << length << " of " << content.size() << " bytes");
        }
    }
    auto parts = whole;
    for (const char* tail : {"<", "</", "<!", "<!-", "<!--", "<![CDATA[", "<?", "<a", "<a b",
                             "<a b=", "<a b=\"", "&", "&#", "&amp", "<!DOCTYPE", "<!DOCTYPE a [", "]]>"}) {
        INFO(tail);
        parts.back().content = whole.back().content + tail;
        CHECK_FALSE(read_xlsx(testing::packed(parts)));
    }
    const auto nested = [](int deep) {
        std::string rows;
        for (int i = 0; i < deep; ++i)
            rows += "<x>";
        for (int i = 0; i < deep; ++i)
            rows += "</x>";
        return spreadsheet(rows);
    };
    CHECK(read_xlsx(nested(90)));
    CHECK(says(refusal_of(nested(110)), "nested deeper"));
    parts.back().content = "<!DOCTYPE a [<!ENTITY b \"c\">]>" + whole.back().content;
    CHECK(says(refusal_of(testing::packed(parts)), "document type"));
}

TEST_CASE("What a certificate came as is told by its bytes") {
    CHECK(paper_kind(fixture("certificates/spreadsheet.xlsx")) == PaperKind::spreadsheet);
    CHECK(paper_kind(fixture("certificates/german_one_lot.pdf")) == PaperKind::pdf);
    CHECK(paper_kind(fixture("certificates/three_lots.csv")) == PaperKind::text);
    CHECK(paper_kind(std::string("\xFF\xD8\xFF\xE0\0", 5)) == PaperKind::picture);

    const std::string old("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1\0\0", 10);
    const auto xls = read_paper(old);
    REQUIRE(!xls);
    CHECK(says(all_words(xls.refusals()), "of the old form (XLS)"));
    CHECK(says(all_words(xls.refusals()), "save it as XLSX"));
    const auto locked = read_paper(old + std::string("E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0", 32));
    CHECK(says(all_words(locked.refusals()), "locked with a password"));
    CHECK(!read_paper(fixture("certificates/german_one_lot.pdf")));
    CHECK(says(all_words(read_paper("  \n").refusals()), "the file is empty"));
}

} // namespace mellowbin::exchange
