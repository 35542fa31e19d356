#include "print/listing_sheet.h"
#include "print/sheet.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/pdf_tools.h"

using namespace mellowbin;
using namespace mellowbin::print;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const Made made{"Wed 25 Nov 2026, 04:10", Instant{}};

std::size_t count(const std::string& text, std::string_view part) {
    std::size_t found = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
        ++found;
    return found;
}

Sheet sheet_with(Block block) {
    Sheet sheet;
    sheet.title = "A paper";
    sheet.blocks.push_back(std::move(block));
    return sheet;
}

std::string pdf(const Sheet& sheet, PageSize paper = a4) {
    const auto bytes = pdf_of(sheet, paper);
    REQUIRE(bytes);
    return *bytes;
}

Listing lots(int rows) {
    Listing listing{"lots", "Lots in stock", {"In all places"}, {}, {}};
    listing.columns = {
        {"Lot", ""}, {"Weight", "kg", Listing::Holds::number, 1}, {"Best before", "", Listing::Holds::day}};
    for (int i = 0; i < rows; ++i)
        listing.rows.push_back({"L-" + std::to_string(i), i + 0.25, day_from_iso("2027-03-01")});
    return listing;
}

} // namespace

TEST_CASE("Names in Cyrillic, Greek, Chinese, Arabic and Vietnamese stand on paper and can be copied again") {
    for (const char* name : {"Мельница Ясная", "Μύλος Αιγαίου", "面粉厂", "Lúa mì hạng nhất", "Mühle Süß"}) {
        INFO(name);
        CHECK_THAT(tests::text_of(pdf(sheet_with(Paragraph{name}))), Contains(name));
    }
    CHECK(pdf_of(sheet_with(Paragraph{"مطحنة"}), a4)); // right to left: its order in the copy is the reader's
}

TEST_CASE("All fonts are in the file") {
    const auto fonts = tests::fonts_of(pdf(sheet_with(Paragraph{"Flour Мельница 面粉厂"})));
    REQUIRE(fonts.size() >= 2);
    for (const auto& font : fonts) {
        INFO(font.name);
        CHECK(font.is_embedded);
    }
    CHECK(std::any_of(fonts.begin(), fonts.end(),
                      [](const auto& font) { return font.name.find("NotoSans") != std::string::npos; }));
}

TEST_CASE("A character that no font has is refused by its text and its number, wherever it stands") {
    // A code point that Unicode says is no character, so that no font will ever have it.
    const std::string name = "Mill \U0010FFFE";
    const auto is_refused = [&](const Sheet& sheet) {
        const auto bytes = pdf_of(sheet, a4);
        REQUIRE_FALSE(bytes);
        CHECK(bytes.refusals().size() == 1);
        CHECK_THAT(bytes.refusals().front().what, Contains("\"Mill ") && Contains("U+10FFFE"));
    };
    is_refused(sheet_with(Paragraph{name}));
    is_refused(sheet_with(Heading{name}));
    is_refused(sheet_with(Loud{name}));
    is_refused(sheet_with(Bullets{{name}}));
    Table table;
    table.columns = {{"Mill"}};
    table.rows = {{{{name}}}, {{{name}}}};
    is_refused(sheet_with(table));
}

TEST_CASE("Bytes that are no text are refused") {
    const auto bytes = pdf_of(sheet_with(Paragraph{"Mill \xff"}), a4);
    REQUIRE_FALSE(bytes);
    CHECK_THAT(bytes.refusals().front().what, Contains("no text"));
}

TEST_CASE("The same paper is the same bytes, and says that this program made it") {
    const auto sheet = sheet_with(Paragraph{"Flour"});
    CHECK(pdf(sheet) == pdf(sheet));
    CHECK(is_own_paper(pdf(sheet)));
    CHECK_FALSE(is_own_paper("%PDF-1.5 of another program"));
    CHECK_FALSE(is_own_paper(std::string(creator)));
}

TEST_CASE("A long list has its heads on each page, each row once, and each page its number") {
    const auto bytes = pdf_of(lots(200), a4, made);
    REQUIRE(bytes);
    const auto pages = tests::sizes_of(*bytes).size();
    CHECK(pages >= 4);
    const auto text = tests::text_of(*bytes);
    CHECK(count(text, "Weight kg") == pages);
    CHECK(count(text, "page 1 of " + std::to_string(pages)) == 1);
    CHECK(count(text, "made Wed 25 Nov 2026, 04:10") == pages);
    for (int i = 0; i < 200; ++i)
        CHECK(count(text, "L-" + std::to_string(i) + " ") == 1);
    CHECK_THAT(text, Contains("In all places") && Contains("199.2") && Contains("2027-03-01"));
}

TEST_CASE("A list without rows says so, and a list of many columns lies across") {
    const auto none = pdf_of(lots(0), a4, made);
    REQUIRE(none);
    CHECK_THAT(tests::text_of(*none), Contains("There is none."));
    CHECK_THAT(tests::sizes_of(*none).front(), StartsWith("595")); // upright: A4 is 595 by 842 points
    auto wide = lots(3);
    for (int i = 0; i < 12; ++i) {
        wide.columns.push_back({"A column with a long head", ""});
        for (auto& row : wide.rows)
            row.emplace_back(std::string("words that are read"));
    }
    const auto bytes = pdf_of(wide, a4, made);
    REQUIRE(bytes);
    CHECK_THAT(tests::sizes_of(*bytes).front(), StartsWith("841"));
    CHECK(tests::sizes_of(*bytes).size() == 1);
}

TEST_CASE("A list for counting has an empty column at its end") {
    const auto sheet = sheet_of(lots(2), letter, made, "Counted kg");
    const auto& table = std::get<Table>(sheet.blocks.back());
    CHECK(table.columns.back().head == "Counted kg");
    CHECK(table.rows.front().back().empty());
    CHECK_THAT(tests::text_of(pdf(sheet, letter)), Contains("Counted kg"));
    CHECK_THAT(tests::sizes_of(pdf(sheet, letter)).front(), StartsWith("612 x 792"));
}

TEST_CASE("A text longer than a page goes on over pages and loses no word, in a table as well") {
    std::string words;
    for (int i = 0; i < 3000; ++i)
        words += "w" + std::to_string(i) + " ";
    Table table;
    table.columns = {{"Remark"}, {"No."}};
    table.rows = {{{{words}}, {{"1"}}}};
    for (const auto& sheet : {sheet_with(Paragraph{words}), sheet_with(table), sheet_with(Loud{words})}) {
        const auto bytes = pdf(sheet);
        CHECK(tests::sizes_of(bytes).size() >= 2);
        const auto text = tests::text_of(bytes) + " ";
        int lost = 0;
        for (int i = 0; i < 3000; ++i) {
            const auto word = "w" + std::to_string(i);
            lost += text.find(word + " ") == std::string::npos && text.find(word + "\n") == std::string::npos;
        }
        CHECK(lost == 0);
    }
}

TEST_CASE("A table ends on the smallest paper, too") {
    Table table;
    for (int i = 0; i < 30; ++i)
        table.columns.push_back({"Head of a column"});
    table.rows.assign(2, std::vector<Cell>(30, Cell{{"some words"}}));
    CHECK(tests::sizes_of(pdf(sheet_with(table), {40, 40})).size() >= 2);
}

TEST_CASE("A heading is never the last thing on a page: what it is over begins beneath it") {
    for (int before = 0; before < 60; ++before) {
        Table table;
        table.columns = {{"Oxidant, preservative"}};
        table.rows = {{{{"first"}, {"second"}, {"third"}, {"fourth"}, {"fifth"}}}};
        Sheet sheet = sheet_with(Bullets{std::vector<std::string>(static_cast<std::size_t>(before), "line")});
        sheet.blocks.emplace_back(Heading{"Fri 27 Nov"});
        sheet.blocks.emplace_back(table);
        const auto text = tests::text_of(pdf(sheet));
        const auto heading = text.find("Fri 27 Nov");
        INFO(before << " lines before");
        CHECK(text.substr(heading, text.find("fifth") - heading).find('\f') == std::string::npos);
    }
}
