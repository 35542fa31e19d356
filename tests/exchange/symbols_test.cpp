// Symbols made by zint, laid down as a label printer of 203 dpi does, read back by two readers that know
// nothing of it (zxing-cpp, and zbar as a process), and what these give by ours: the same elements.

#include "exchange/scan.h"
#include "exchange/symbol.h"
#include "printed_symbols.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/refusal_words.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::exchange;
using testing::all_words;
using testing::printed;
using testing::Seen;

namespace {

using enum SymbolKind;

constexpr const char* gtin = "09521234543213"; // of GS1's demonstration prefix

Symbol made(SymbolKind kind, const Elements& elements) {
    const auto symbol = symbol_of(kind, elements);
    INFO((symbol ? "" : all_words(symbol.refusals())));
    REQUIRE(symbol);
    return *symbol;
}

Elements read_as_elements(const Seen& seen) {
    const auto scan = read_scan(seen.identifier + seen.bytes);
    INFO(seen.identifier << seen.bytes << (scan ? "" : ": " + all_words(scan.refusals())));
    REQUIRE(scan);
    return scan->elements;
}

/// Each symbol's elements, in any order: a reader gives them as it finds them.
bool has(const std::vector<Seen>& all, const Elements& elements) {
    return std::any_of(all.begin(), all.end(),
                       [&](const Seen& one) { return read_as_elements(one) == elements; });
}

void check_read_back(SymbolKind kind, const Elements& elements, const std::string& identifier) {
    INFO(name_of(kind));
    const auto picture = printed({made(kind, elements)});
    const auto by_zxing = testing::seen_by_zxing(picture);
    REQUIRE(by_zxing.size() == 1);
    CHECK(by_zxing[0].identifier == identifier);
    CHECK(read_as_elements(by_zxing[0]) == elements);
    if (kind == gs1_data_matrix)
        return;
    bool is_there = false;
    const auto by_zbar = testing::seen_by_zbar(picture, is_there);
    if (!is_there) {
        WARN("zbarimg is not installed: skipped as second reader");
        return;
    }
    REQUIRE(by_zbar.size() == 1);
    CHECK(by_zbar[0].identifier == identifier);
    CHECK(read_as_elements(by_zbar[0]) == elements);
}

void check_in_each_kind(const Elements& elements) {
    check_read_back(gs1_128, elements, "]C1");
    check_read_back(gs1_data_matrix, elements, "]d2");
    check_read_back(gs1_qr, elements, "]Q3");
}

} // namespace

TEST_CASE("A pallet's label is read back from paper with the elements that were put in") {
    check_in_each_kind({{"01", gtin}, {"15", "270531"}, {"10", "FL-240917A"}});
}

TEST_CASE("Values of any length behind each other stay apart by the separator that readers send") {
    check_in_each_kind({{"10", "FL-240917A"}, {"400", "PO-4711"}, {"30", "40"}, {"15", "270531"}});
}

TEST_CASE("A weight in kg and one in lb are read back to the same gram") {
    const Day today = day_from_iso("2026-11-25");
    const Elements kilograms{{"01", gtin}, {"3101", "010005"}, {"10", "SW-1"}};
    const Elements pounds{{"01", gtin}, {"3202", "005511"}, {"10", "SW-1"}};
    check_in_each_kind(kilograms);
    check_in_each_kind(pounds);
    const auto net = [&](const Elements& elements) {
        const auto seen = testing::seen_by_zxing(printed({made(gs1_128, elements)}));
        REQUIRE(seen.size() == 1);
        return facts_of(read_as_elements(seen[0]), today).net;
    };
    CHECK(net(kilograms) == Grams{1000500});
    CHECK(net(pounds) == Grams{24997}); // 55.11 lb of 453.59237 g
}

TEST_CASE("A day of 00 goes through a symbol as it is, and is the month's last") {
    const Elements elements{{"01", gtin}, {"11", "260200"}, {"17", "280200"}, {"10", "SW-1"}};
    check_in_each_kind(elements);
    const auto facts = facts_of(elements, day_from_iso("2026-11-25"));
    CHECK(facts.produced == day_from_iso("2026-02-28"));
    CHECK(facts.expires == day_from_iso("2028-02-29"));
}

TEST_CASE("A lot number may have every character of set 82, and none is lost or turned on the way") {
    // GS1 General Specifications, figure 7.11-1: 82 characters, 20 a number at most.
    for (const char* lot : {"!\"%&'()*+,-./:;<=>?_", "0123456789ABCDEFGHIJ", "KLMNOPQRSTUVWXYZabcd",
                            "efghijklmnopqrstuvwx", "yz"}) {
        INFO(lot);
        CHECK_FALSE(why_not_on_label(lot));
        check_in_each_kind({{"10", lot}, {"400", "N-1"}});
    }
}

TEST_CASE("An SSCC alone, and a label split over two symbols, are read as what belongs to one pallet") {
    const Elements pallet{{"00", "095201234500000014"}};
    check_in_each_kind(pallet);
    const Elements content{{"02", gtin}, {"37", "40"}, {"15", "270531"}, {"10", "FL-240917A"}};
    const auto picture = printed({made(gs1_128, content), made(gs1_128, pallet)});
    const auto by_zxing = testing::seen_by_zxing(picture);
    CHECK(by_zxing.size() == 2);
    CHECK(has(by_zxing, content));
    CHECK(has(by_zxing, pallet));
    bool is_there = false;
    const auto by_zbar = testing::seen_by_zbar(picture, is_there);
    if (is_there) {
        CHECK(has(by_zbar, content));
        CHECK(has(by_zbar, pallet));
    }
    // Together they have what each of them wants beside it.
    CHECK_FALSE(missing_beside(content).empty());
    auto both = content;
    both.push_back(pallet.front());
    CHECK(missing_beside(both).empty());
    CHECK(conflicts_in(both).empty());
}

TEST_CASE("A Digital Link in a plain QR Code or Data Matrix is read as the same elements") {
    const std::string link = "https://id.gs1.org/01/09521234543213/10/FL-240917A?15=270531&3103=025000";
    const Elements elements{{"01", gtin}, {"10", "FL-240917A"}, {"15", "270531"}, {"3103", "025000"}};
    for (const auto& [kind, identifier] : {std::pair{qr, "]Q1"}, std::pair{data_matrix, "]d1"}}) {
        INFO(name_of(kind));
        const auto symbol = symbol_of(kind, link);
        REQUIRE(symbol);
        const auto seen = testing::seen_by_zxing(printed({*symbol}));
        REQUIRE(seen.size() == 1);
        CHECK(seen[0].identifier == identifier);
        CHECK(read_as_elements(seen[0]) == elements);
    }
    bool is_there = false;
    const auto by_zbar = testing::seen_by_zbar(printed({*symbol_of(qr, link)}), is_there);
    if (is_there) {
        REQUIRE(by_zbar.size() == 1);
        CHECK(read_as_elements(by_zbar[0]) == elements);
    }
}

TEST_CASE("A lot number in a plain Code 128 is a text, and no elements") {
    const auto symbol = symbol_of(code_128, "FL-240917A");
    REQUIRE(symbol);
    const auto seen = testing::seen_by_zxing(printed({*symbol}));
    REQUIRE(seen.size() == 1);
    CHECK(seen[0].identifier == "]C0");
    const auto scan = read_scan(seen[0].identifier + seen[0].bytes);
    REQUIRE(scan);
    CHECK_FALSE(scan->is_gs1());
    CHECK(scan->text == "FL-240917A");
}

TEST_CASE("What a kind cannot hold is refused with the reason, and nothing is drawn") {
    CHECK_FALSE(symbol_of(gs1_128, {{"10", "M\u00dcHLE-7"}}));
    CHECK_FALSE(symbol_of(gs1_128, {{"10", std::string(21, '1')}}));
    CHECK_FALSE(symbol_of(gs1_128, {{"01", "09521234543219"}})); // the check digit
    CHECK_FALSE(symbol_of(gs1_128, "FL-1"));
    CHECK_FALSE(symbol_of(qr, Elements{{"10", "FL-1"}}));
    CHECK_FALSE(symbol_of(qr, std::string(8000, 'x')));
    CHECK_FALSE(symbol_of(gs1_data_matrix, Elements{}));
}
