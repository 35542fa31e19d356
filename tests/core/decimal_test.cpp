#include "core/decimal.h"
#include "support/refusal_words.h"

#include <random>

namespace mellowbin {
namespace {

using testing::says;

struct Good {
    const char* text;
    double value;
};

constexpr Good good[] = {
    {"11,85", 11.85},
    {"11.85", 11.85},
    {"0", 0},
    {"-0", 0},
    {"+3", 3},
    {"-2,5", -2.5},
    {"007", 7},
    {".5", 0.5},
    {",5", 0.5},
    {"5.", 5},
    {"  14.2 ", 14.2},
    {"\t14.2\r\n", 14.2},
    {"14.2\xC2\xA0", 14.2}, // a no-break space copied along with the figure
    {"123456789012345", 123456789012345.0},
    {"0.00001", 0.00001},
};

constexpr const char* bad[] = {
    "abc",
    "1.234,5",
    "1,234.5",
    "1e5",
    "1E+05",
    "12 %",
    "12%",
    "12,5 kg",
    "--1",
    "+-3",
    "-+3",
    "1-",
    "-",
    "+",
    ".",
    ",",
    "-.",
    "..5",
    "1.2.3",
    "1'250",
    "nan",
    "NaN",
    "inf",
    "-inf",
    "0x10",
    "1_000",
    "1234567890123456", // 16 digits: more than a double keeps
    "<0.1",
    "n.d.",
    "12,5,",
    "\xE2\x88\x92"
    "5", // the typographic minus
    "१२",
    "1\n2",
};

} // namespace

TEST_CASE("Point and comma are both read, and so are a sign and spaces around") {
    for (const auto& [text, value] : good) {
        INFO(text);
        const auto read = read_decimal("Moisture", text);
        REQUIRE(read);
        REQUIRE(read->has_value());
        CHECK(**read == value);
        CHECK(!std::signbit(**read + 0.0) == (value >= 0));
    }
}

TEST_CASE("A number is read as the program writes it, with spaces between thousands") {
    for (const auto& [text, value] : {std::pair{"2 500,5", 2500.5},
                                      {"2 500.5", 2500.5},
                                      {"12 500", 12500.0},
                                      {"-1 234 567", -1234567.0},
                                      {"2\u00a0500", 2500.0},
                                      {"2\u2009500,25", 2500.25},
                                      {"120\u202f000", 120000.0}}) {
        const auto read = read_decimal("Mass", text);
        INFO(text);
        REQUIRE(read);
        CHECK(**read == value);
    }
    for (const char* text :
         {"2 50", "25 00", "2 5000", "1 2 3", "2  500", "2 500 ,5", "2,5 00", "1234 567", " - 5"})
        CHECK_FALSE(read_decimal("Mass", text));
}

TEST_CASE("Everything else is refused, naming the field, what was read and what is expected") {
    for (const char* text : bad) {
        INFO(text);
        const auto read = read_decimal("Moisture", text);
        REQUIRE(!read);
        REQUIRE(read.refusals().size() == 1);
        const auto& refusal = read.refusals().front();
        CHECK(refusal.field == "Moisture");
        CHECK(says(refusal.what, "was read; a number such as 11.85 or 11,85 is expected"));
        CHECK(!refusal.remedy.empty());
    }
    CHECK(says(read_decimal("Absorption", "abc").refusals().front().what, "\"abc\" was read"));
    CHECK(!read_decimal("Moisture", std::string_view("1\0", 2)));
}

TEST_CASE("An empty text is a missing figure, not a zero") {
    for (const char* text : {"", " ", "\t", "\xC2\xA0"}) {
        const auto read = read_decimal("Moisture", text);
        REQUIRE(read);
        CHECK(!read->has_value());
    }
}

TEST_CASE("Bounds are included, and a figure outside them is refused with both of them") {
    const Bounds percent{0, 30, "%"};
    CHECK(read_decimal_within("Moisture", "0", percent));
    CHECK(read_decimal_within("Moisture", "30,0", percent));
    CHECK(**read_decimal_within("Moisture", "14,2", percent) == 14.2);
    const auto above = read_decimal_within("Moisture", " 140 ", percent);
    REQUIRE(!above);
    CHECK(above.refusals().front().what == "140 was read; from 0 to 30 % is expected");
    CHECK(!read_decimal_within("Moisture", "-0.1", percent));
    CHECK(!read_decimal_within("Moisture", "30.1", percent));
    CHECK(!read_decimal_within("Moisture", "", percent)->has_value());
}

TEST_CASE("A large bound is written out, and one without a unit ends with its figure") {
    CHECK(read_decimal_within("Weight", "2000000", {0.1, 1'000'000, "kg"}).refusals().front().what ==
          "2000000 was read; from 0.1 to 1000000 kg is expected");
    CHECK(read_decimal_within("Gluten index", "101", {0, 100, ""}).refusals().front().what ==
          "101 was read; from 0 to 100 is expected");
}

TEST_CASE("A figure that is needed may not be missing") {
    const auto missing = read_required_decimal("Weight", " ", {0.1, 100, "kg"});
    REQUIRE(!missing);
    CHECK(missing.refusals().front().what == "is empty; from 0.1 to 100 kg is expected");
    CHECK(*read_required_decimal("Weight", "12,5", {0.1, 100, "kg"}) == 12.5);
    CHECK(!read_required_decimal("Weight", "1e1", {0.1, 100, "kg"}));
}

TEST_CASE("A long or broken text is shown short and whole in the message") {
    const auto read = read_decimal("Ash", std::string(10'000, 'x') + "\xFF");
    REQUIRE(!read);
    CHECK(read.refusals().front().what.size() < 200);
}

TEST_CASE("What is shown is read as the same number, with either mark") {
    std::mt19937 random{20261125};
    std::uniform_int_distribution<int> hundredths{-1'000'000, 1'000'000};
    for (int i = 0; i < 2000; ++i) {
        const double value = hundredths(random) / 100.0;
        std::string text = fixed(value, 2);
        REQUIRE(**read_decimal("Any", text) == value);
        text[text.find('.')] = ',';
        REQUIRE(**read_decimal("Any", text) == value);
    }
}

TEST_CASE("A shown number has its decimals and no minus before nothing") {
    CHECK(fixed(11.845, 1) == "11.8");
    CHECK(fixed(-0.04, 1) == "0.0");
    CHECK(fixed(-0.0, 0) == "0");
    CHECK(fixed(-0.06, 1) == "-0.1");
    CHECK(fixed(1234567.5, 0) == "1234568");
}

TEST_CASE("A number is written as it would be typed, and read again is the same") {
    CHECK(as_typed(12.5) == "12.5");
    CHECK(as_typed(0.1 + 0.2) == "0.3");
    CHECK(as_typed(-20) == "-20");
    CHECK(as_typed(0.00001) == "0.00001");
    CHECK(as_typed(1.5e-7) == "0.00000015");
    CHECK(as_typed(1'000'000) == "1000000");
    for (const double value : {0.123, 1.0 / 3, 0.00001, 2500.5, 999'999'999'999.0})
        CHECK(as_typed(**read_decimal("Number", as_typed(value))) == as_typed(value));
}

} // namespace mellowbin
