#include "exchange/application_identifier.h"
#include "exchange/scan.h"
#include "exchange/test_scan.h"
#include "support/catch.h"

#include <algorithm>
#include <map>

using namespace mellowbin;
using namespace mellowbin::exchange;
using Catch::Matchers::Contains;

namespace {

constexpr double longest_gap = 0.035;

/// As a scanner that is set right sends the symbol, with this in place of the separator.
std::string sent(const TestSymbol& symbol, std::string_view separator = "\x1d") {
    std::string text;
    for (const auto& one : symbol.elements) {
        text += one.identifier + one.value;
        if (&one != &symbol.elements.back() && !application_identifier(one.identifier)->is_predefined)
            text += separator;
    }
    return text;
}

const TestSymbol& area() { return test_symbols().at(0); }
const TestSymbol& bars() { return test_symbols().at(1); }

TestVerdict judged(std::string bytes, const ScannerSetup& setup = {}) {
    return judge_test_scan({std::move(bytes), Arrival::Way::keys, Arrival::End::enter, 0.008}, setup,
                           longest_gap);
}

TestLine line(const TestVerdict& verdict, std::string_view what) {
    for (const auto& one : verdict.lines)
        if (one.what == what)
            return one;
    return {"", "there is no such line", Standing::wrong};
}

/// What a keyboard writes where the scanner pressed the keys of an American one. Signs that a layout has on
/// a dead key arrive as nothing, and take the next sign with them.
std::string typed_on(const std::map<char, std::string>& layout, const std::string& text) {
    std::string typed;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto key = layout.find(text[i]);
        if (key == layout.end())
            typed += text[i];
        else if (key->second.empty())
            ++i;
        else
            typed += key->second;
    }
    return typed;
}

const std::map<char, std::string> german{
    {'y', "z"}, {'z', "y"},      {'Y', "Z"},       {'Z', "Y"},      {'-', "\u00df"}, {'=', ""},
    {'/', "-"}, {';', "\u00f6"}, {'\'', "\u00e4"}, {':', "\u00d6"}, {'"', "\u00c4"}, {'&', "/"},
    {'*', "("}, {'(', ")"},      {')', "="},       {'_', "?"},      {'+', ""},       {'<', ";"},
    {'>', ":"}, {'?', "_"},      {']', "+"}};
const std::map<char, std::string> french{
    {'1', "&"}, {'2', "\u00e9"}, {'3', "\""},     {'4', "'"},       {'5', "("}, {'6', "-"}, {'7', "\u00e8"},
    {'8', "_"}, {'9', "\u00e7"}, {'0', "\u00e0"}, {'a', "q"},       {'q', "a"}, {'A', "Q"}, {'Q', "A"},
    {'z', "w"}, {'w', "z"},      {'Z', "W"},      {'W', "Z"},       {'m', ","}, {'M', "?"}, {'!', "1"},
    {'"', "%"}, {'%', "5"},      {'&', "7"},      {'\'', "\u00f9"}, {'(', "9"}, {')', "0"}, {'*', "8"},
    {'-', ")"}, {',', ";"},      {'.', ":"},      {'/', "!"},       {':', "M"}, {';', "m"}, {'<', "."},
    {'>', "/"}, {'?', "\u00a7"}, {'_', "\u00b0"}, {']', "$"}};

} // namespace

TEST_CASE("The test symbols have a separator, letters of both cases, digits, and signs of set 82 alone") {
    for (const auto& symbol : test_symbols()) {
        INFO(symbol.words);
        const auto text = sent(symbol);
        CHECK(std::count(text.begin(), text.end(), group_separator) == 1);
        const auto read = read_scan("]d2" + text);
        REQUIRE(read);
        CHECK(read->elements == symbol.elements);
        CHECK(text.find("z") != std::string::npos);
        CHECK(text.find("Z") != std::string::npos);
    }
    const auto text = sent(area());
    for (const char c : std::string("0123456789!\"%&'()*+,-./:;<=>?_"))
        CHECK(text.find(c) != std::string::npos);
}

TEST_CASE("A scanner that is set right is told so, line for line") {
    for (const auto& symbol : test_symbols()) {
        const auto verdict = judged("]d2" + sent(symbol));
        CHECK(verdict.is_well());
        CHECK_FALSE(verdict.separator);
        REQUIRE(verdict.lines.size() == 6);
        for (const auto& one : verdict.lines) {
            INFO(one.what << ": " << one.words);
            CHECK(one.standing == Standing::well);
        }
        CHECK(line(verdict, "Symbology identifier").words == "is sent: ]d2");
        CHECK(line(verdict, "Speed").words == "8 ms from key to key");
    }
}

TEST_CASE("A separator that is lost on the way is told, and nothing else is wrong by it") {
    for (const auto& symbol : test_symbols()) {
        const auto verdict = judged("]C1" + sent(symbol, ""));
        CHECK(line(verdict, "Separator").standing == Standing::wrong);
        CHECK_THAT(line(verdict, "Separator").words, Contains("is lost"));
        CHECK(line(verdict, "Keyboard layout").standing == Standing::well);
        CHECK(line(verdict, "Letters").standing == Standing::well);
        CHECK_FALSE(verdict.separator);
    }
}

TEST_CASE("Another sign in place of the separator is offered to be set, where no lot number may have it") {
    for (const auto* separator : {"~", "|", "^", "<GS>", "{GS}"}) {
        for (const auto& symbol : test_symbols()) {
            INFO(separator << " in " << symbol.words);
            const auto verdict = judged("]d2" + sent(symbol, separator));
            CHECK(verdict.separator == std::string(separator));
            CHECK_THAT(line(verdict, "Separator").words, Contains("arrives as \"" + std::string(separator)));
            CHECK(line(verdict, "Keyboard layout").standing == Standing::well);
            const auto once_set = judged("]d2" + sent(symbol, separator), {separator});
            CHECK(once_set.is_well());
            CHECK_FALSE(once_set.separator);
        }
    }
    const auto verdict = judged("]d2" + sent(area(), "%"));
    CHECK_FALSE(verdict.separator);
    CHECK_THAT(line(verdict, "Separator").words, Contains("which a lot number may have"));
}

TEST_CASE("A separator that arrives itself where another sign is set is offered to be set") {
    const auto verdict = judged("]d2" + sent(area()), {"~"});
    REQUIRE(verdict.separator);
    CHECK(verdict.separator->empty());
    CHECK(line(verdict, "Separator").standing == Standing::wrong);
    CHECK(judged("]d2" + sent(area(), std::string(shown_separator))).is_well());
}

TEST_CASE("Whether the symbology identifier is sent is told, and what else stands in front") {
    const auto without = judged(sent(area()));
    CHECK(line(without, "Symbology identifier").standing == Standing::mind);
    CHECK_THAT(line(without, "Symbology identifier").words, Contains("is not sent"));
    CHECK(without.is_well()); // labels are read all the same
    const auto prefix = judged("S1:" + sent(area()));
    CHECK_THAT(line(prefix, "Symbology identifier").words, Contains("\"S1:\" stands in front"));
    CHECK(line(judged("\x1d" + sent(area())), "Symbology identifier").standing == Standing::mind);
}

TEST_CASE("Caps Lock, and a scanner that makes all letters one case, are told apart") {
    auto turned = "]d2" + sent(area());
    auto upper = turned, lower = turned;
    for (auto& c : turned)
        c = static_cast<char>(std::islower(c) ? std::toupper(c) : std::tolower(c));
    std::transform(upper.begin(), upper.end(), upper.begin(), [](char c) { return std::toupper(c); });
    std::transform(lower.begin(), lower.end(), lower.begin(), [](char c) { return std::tolower(c); });
    CHECK_THAT(line(judged(turned), "Letters").words, Contains("Caps Lock is on"));
    CHECK_THAT(line(judged(upper), "Letters").words, Contains("all arrive as capitals"));
    CHECK_THAT(line(judged(lower), "Letters").words, Contains("all arrive small"));
    for (const auto& text : {turned, upper, lower})
        CHECK(line(judged(text), "Keyboard layout").standing == Standing::well);
}

TEST_CASE("On a German keyboard each sign that is exchanged is named, and what its dead keys swallow") {
    for (const auto& symbol : test_symbols()) {
        INFO(symbol.words);
        const auto verdict = judged(typed_on(german, "]d2" + sent(symbol)));
        const auto layout = line(verdict, "Keyboard layout");
        CHECK(layout.standing == Standing::wrong);
        CHECK_THAT(layout.words, Contains("y as z") && Contains("z as y") && Contains("- as \u00df"));
        CHECK_THAT(layout.words, Contains("lost") && Contains("="));
        CHECK_THAT(layout.words, !Contains("a as"));
        CHECK(line(verdict, "Separator").standing == Standing::well);
        CHECK(line(verdict, "Letters").standing == Standing::well);
        CHECK_THAT(line(verdict, "Symbology identifier").words, Contains("is sent"));
    }
}

TEST_CASE("On a French keyboard, where hardly a sign is in its place, the symbol is known all the same") {
    const auto verdict = judged(typed_on(french, "]d2" + sent(area())));
    const auto layout = line(verdict, "Keyboard layout");
    CHECK_THAT(layout.words, Contains("a as q") && Contains("1 as &") && Contains("w as z"));
    CHECK(line(verdict, "Separator").standing == Standing::well);
}

TEST_CASE("Another symbol than the test's is told as that") {
    for (const auto* text : {"]C1010952123454321310FL-240917A\x1d"
                             "15270531",
                             "W24-118", "https://id.gs1.org/01/09521234543213/10/ABC123?17=261231", "x"}) {
        const auto verdict = judged(text);
        REQUIRE(verdict.lines.size() == 1);
        CHECK_THAT(verdict.lines[0].words, Contains("none of the test symbols"));
        CHECK_FALSE(verdict.is_well());
    }
}

TEST_CASE("Speed and end are told as they were seen") {
    const auto of = [](Arrival::Way way, Arrival::End end, std::optional<double> gap) {
        return judge_test_scan({"]C1" + sent(bars()), way, end, gap}, {}, longest_gap);
    };
    CHECK(line(of(Arrival::Way::keys, Arrival::End::enter, 0.030), "Speed").standing == Standing::mind);
    CHECK(line(of(Arrival::Way::slow_keys, Arrival::End::enter, {}), "Speed").standing == Standing::wrong);
    CHECK_THAT(line(of(Arrival::Way::port, Arrival::End::line, {}), "Speed").words, Contains("port"));
    CHECK(line(of(Arrival::Way::keys, Arrival::End::tab, 0.01), "End").words == "Tab ends the scan");
    CHECK(line(of(Arrival::Way::keys, Arrival::End::pause, 0.01), "End").standing == Standing::mind);
    CHECK(line(of(Arrival::Way::port, Arrival::End::line, {}), "End").standing == Standing::well);
}
