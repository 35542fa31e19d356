#include "exchange/printed_symbols.h"
#include "exchange/scan.h"
#include "print/label.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/pdf_tools.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::print;
using Catch::Matchers::Contains;

namespace {

const Day today = day_from_iso("2026-11-25");
const Instant now{today};

/// Numbers with GS1's prefix for demonstrations, 952.
LabelledFlour pallet() {
    LabelledFlour flour;
    flour.sscc = "095201234500000014";
    flour.gtin = "09521234543213";
    flour.lot = "FL-240917A";
    flour.flour = "Strong white";
    flour.mill = "Harrow Mill";
    flour.milled_on = day_from_iso("2026-10-01");
    flour.best_before = day_from_iso("2027-05-31");
    flour.net = Grams{900'000};
    flour.place = "Bay 2";
    return flour;
}

std::string pdf_of(const Result<Drawing>& drawing) {
    REQUIRE(drawing);
    const auto bytes = drawing->pdf();
    REQUIRE(bytes);
    return *bytes;
}

std::string pallet_pdf(const LabelledFlour& flour, PageSize size = usual_pallet_label) {
    return pdf_of(pallet_label(flour, size, now, today));
}

/// The corner that holds the square symbol: 40 by 40 mm, as a reader is held over it. zxing finds a Data
/// Matrix only about the middle of what it sees.
testing::Picture corner(const tests::GreyPage& page) {
    constexpr std::size_t side = 320; // dots
    testing::Picture part{side, side, {}};
    for (std::size_t y = 0; y < side; ++y)
        for (std::size_t x = 0; x < side; ++x)
            part.grey.push_back(page.grey[y * page.width + page.width - side + x]);
    return part;
}

/// What readers see on the label as a printer of 203 dpi lays it down, told apart by kind.
struct SeenOnLabel {
    std::string square;            ///< of zxing
    std::vector<std::string> bars; ///< of zxing
    std::vector<std::string> bars_by_zbar;
    std::string square_by_dmtx;
    bool has_zbar = false, has_dmtx = false;
};

SeenOnLabel seen_on(const std::string& pdf) {
    const auto page = tests::page_at(pdf, 203);
    const testing::Picture picture{page.width, page.height, page.grey};
    SeenOnLabel seen;
    for (const auto& one : testing::seen_by_zxing(corner(page)))
        seen.square = one.identifier + one.bytes;
    for (const auto& one : testing::seen_by_zxing(picture))
        if (one.identifier == "]C1")
            seen.bars.push_back(one.identifier + one.bytes);
    for (const auto& one : testing::seen_by_zbar(picture, seen.has_zbar))
        seen.bars_by_zbar.push_back(one.identifier + one.bytes);
    seen.has_dmtx = tests::is_program_there("dmtxread");
    if (seen.has_dmtx)
        seen.square_by_dmtx = tests::seen_by_dmtx(page.pgm);
    return seen;
}

exchange::Elements read(const std::string& scan) {
    INFO(scan);
    const auto found = exchange::read_scan(scan);
    REQUIRE(found);
    REQUIRE(found->is_gs1());
    return found->elements;
}

exchange::Elements sorted(exchange::Elements elements) {
    std::sort(elements.begin(), elements.end(),
              [](const auto& a, const auto& b) { return a.identifier < b.identifier; });
    return elements;
}

exchange::Elements read_all(const std::vector<std::string>& scans) {
    exchange::Elements all;
    for (const auto& scan : scans)
        for (const auto& element : read(scan))
            all.push_back(element);
    return all;
}

void check_facts(const exchange::Elements& elements, const LabelledFlour& flour) {
    const auto facts = exchange::facts_of(elements, today);
    CHECK(facts.sscc == flour.sscc);
    CHECK(facts.lot == flour.lot);
    CHECK(facts.produced == flour.milled_on);
    CHECK(facts.best_before == flour.best_before);
    CHECK(facts.net == flour.net);
    CHECK((facts.gtin + facts.content_gtin) == flour.gtin);
    CHECK(facts.count == flour.count);
}

/// All readers see the flour's data on it, on the bars as on the square.
void check_label(const LabelledFlour& flour, const std::string& pdf) {
    const auto seen = seen_on(pdf);
    const auto square = read(seen.square);
    check_facts(square, flour);
    CHECK(sorted(read_all(seen.bars)) == sorted(square));
    if (seen.has_zbar)
        CHECK(sorted(read_all(seen.bars_by_zbar)) == sorted(square));
    else
        WARN("zbarimg is not here: its reading was not looked at");
    if (seen.has_dmtx)
        CHECK(read("]d2" + seen.square_by_dmtx.substr(seen.square_by_dmtx.find_first_not_of('\x1d'))) ==
              square);
    else
        WARN("dmtxread is not here: its reading was not looked at");
}

} // namespace

TEST_CASE("A pallet label at 203 dpi is read by three others' readers to what was put on it") {
    check_label(pallet(), pallet_pdf(pallet()));
}

TEST_CASE("The same holds of the bags' GTIN with their count, of weights of any size and of a small label") {
    auto bags = pallet();
    bags.count = 36;
    check_label(bags, pallet_pdf(bags));
    auto loose = pallet();
    loose.gtin.clear();
    loose.net = Grams{24'356'800};
    check_label(loose, pallet_pdf(loose));
    loose.lot = "A7";
    check_label(loose, pallet_pdf(loose, {105, 170}));
}

TEST_CASE("A label on A4 and on letter is read as well, with the longest lot number there is") {
    auto flour = pallet();
    flour.lot = "aB%&'()*+,-./:;<=>?_"; // 20 of set 82
    check_label(flour, pallet_pdf(flour, a4));
    check_label(flour, pallet_pdf(flour, letter));
}

TEST_CASE("Each GS1-128 keeps the standard's limits, and what needs more is parted") {
    auto flour = pallet();
    flour.count = 36;
    const auto data = label_data(flour, today);
    REQUIRE(data);
    const auto bars = bars_of(data->elements, 210);
    REQUIRE(bars);
    CHECK(bars->size() == 3); // the pallet's number alone; the rest has 59 characters
    for (const auto& one : *bars) {
        const double width = static_cast<double>(one.symbol.columns + 2 * one.symbol.quiet) * bar_module_mm;
        CHECK(width <= 165.1);
        CHECK(one.symbol.quiet == 10);
        // Of an element string its printed form has brackets and blanks more.
        CHECK(std::count_if(one.words.begin(), one.words.end(),
                            [](char c) { return c != ' ' && c != '(' && c != ')'; }) <= 48);
    }
    CHECK(bars->front().words == "(00) 095201234500000014");
}

TEST_CASE("A label says in words what stands on it, and beneath its bars what they hold") {
    const auto text = tests::text_of(pallet_pdf(pallet()));
    CHECK_THAT(text, Contains("FL-240917A") && Contains("Strong white") && Contains("Harrow Mill") &&
                         Contains("Milled on 2026-10-01") && Contains("Best before 2027-05-31") &&
                         Contains("Net 900 kg") && Contains("Lies in Bay 2"));
    CHECK_THAT(text, Contains("(00) 095201234500000014") && Contains("(01) 09521234543213") &&
                         Contains("(15) 270531") && Contains("(3103) 900000") && Contains("(10) FL-240917A"));
    CHECK_THAT(text, !Contains("No GTIN") && !Contains("In words only"));
}

TEST_CASE("A lot number that no symbol of GS1 holds stands in words, and the label says so") {
    for (const char* lot : {"MÜHLE 7", "A-LOT-OF-21-CHARACTER", "面粉-1"}) {
        auto flour = pallet();
        flour.lot = lot;
        const auto pdf = pallet_pdf(flour);
        const auto text = tests::text_of(pdf);
        CHECK_THAT(text, Contains(lot) && Contains("In words only"));
        const auto facts = exchange::facts_of(read(seen_on(pdf).square), today);
        CHECK(facts.lot.empty());
        CHECK(facts.sscc == flour.sscc);
    }
}

TEST_CASE("Without a GTIN a label says that it is for the plant's own scanners") {
    auto flour = pallet();
    flour.gtin.clear();
    CHECK_THAT(tests::text_of(pallet_pdf(flour)), Contains("No GTIN"));
}

TEST_CASE("A weight of more digits than a symbol has, and a day of another century, stand in words only") {
    auto flour = pallet();
    flour.net = Grams{24'356'789};
    flour.best_before = day_from_iso("2078-01-01");
    const auto data = label_data(flour, today);
    REQUIRE(data);
    CHECK(data->left_out.size() == 2);
    CHECK(exchange::value_of(data->elements, "15").empty());
}

TEST_CASE("Numbers that are none are refused, and so is a count of bags that no standard lets stand there") {
    auto flour = pallet();
    flour.sscc = "095201234500000015";
    flour.gtin = "09521234543214";
    const auto refused = pallet_label(flour, usual_pallet_label, now, today);
    REQUIRE_FALSE(refused);
    REQUIRE(refused.refusals().size() == 2);
    CHECK(refused.refusals()[0].field == "SSCC");
    CHECK(refused.refusals()[1].field == "GTIN");
    flour = pallet();
    flour.gtin.clear();
    flour.count = 3;
    CHECK_FALSE(label_data(flour, today));
}

TEST_CASE("A label that has no room for its bars is refused with what it needs") {
    auto flour = pallet();
    flour.lot = "ABCDEFGHIJKLMNOPQRST";
    const auto narrow = pallet_label(flour, usual_pallet_label, now, today);
    REQUIRE_FALSE(narrow);
    CHECK_THAT(narrow.refusals().front().what, Contains("mm wide as bars") && Contains("(10)"));
    const auto low = pallet_label(pallet(), {148, 90}, now, today);
    REQUIRE_FALSE(low);
    CHECK_THAT(low.refusals().front().what, Contains("148 by 90 mm is too small"));
    CHECK_FALSE(pallet_label(pallet(), {40, 200}, now, today));
}

TEST_CASE("A bag label is read to lot, days and weight, and has no pallet's number") {
    auto flour = pallet();
    flour.net = Grams{25'000};
    const auto pdf = pdf_of(bag_label(flour, usual_bag_label, now, today));
    flour.sscc.clear();
    const auto seen = seen_on(pdf);
    check_facts(read(seen.square), flour);
    CHECK(seen.bars.empty());
    if (seen.has_dmtx)
        CHECK_THAT(seen.square_by_dmtx, Contains("FL-240917A"));
    CHECK_THAT(tests::text_of(pdf), Contains("Net 25 kg") && !Contains("Pallet"));
}

TEST_CASE("A name on a label that no font can show is refused") {
    auto flour = pallet();
    flour.flour = "White \U0010FFFE";
    const auto refused = pallet_label(flour, usual_pallet_label, now, today);
    REQUIRE_FALSE(refused);
    CHECK_THAT(refused.refusals().front().what, Contains("U+10FFFE"));
}
