#include "exchange/scan.h"
#include "support/catch.h"
#include "typed_keys.h"
#include "ui/shell/scan_reader.h"

#include <algorithm>
#include <random>

using namespace mellowbin;
using test::Keys;
using ui::CaughtScan;
using ui::KeyStroke;
using ui::ScanReader;

namespace {

constexpr double fast = 0.008; // see below
const std::string label = "]C1010952123454321310FL-240917A\x1d"
                          "15270531";

/// What came of keys: what went to the window, and the scans.
struct Heard {
    std::vector<KeyStroke> typed;
    std::vector<CaughtScan> scans;

    [[nodiscard]] std::string text() const {
        std::string all;
        for (const auto& stroke : typed)
            all += stroke.text;
        return all;
    }
    [[nodiscard]] bool has_key(int key, int mods = 0) const {
        return std::any_of(typed.begin(), typed.end(), [&](const KeyStroke& stroke) {
            return stroke.what == KeyStroke::What::key && stroke.key == key && stroke.mods == mods;
        });
    }
};

void hear(ScanReader& reader, const Keys& keys) {
    for (const auto& stroke : keys.strokes)
        reader.hear(stroke);
}

/// The keys, one after another as a window that is never busy hears them, and a second in which nothing
/// comes.
Heard heard(const Keys& keys, ScanReader reader = {}) {
    hear(reader, keys);
    reader.wait_until(keys.now + 1);
    return {reader.take_typed(), reader.take_scans()};
}

/// The same of keys that a busy window fetched in one, having looked last at `from`.
Heard fetched(Keys keys, double from) {
    for (auto& stroke : keys.strokes)
        stroke.seconds = keys.now;
    ui::spread(keys.strokes, from);
    return heard(keys);
}

} // namespace

TEST_CASE("A scan is caught whole, and nothing of it reaches the window") {
    for (const int end : {test::enter_key, test::tab_key}) {
        const auto all = heard(Keys().type(label, fast).wait(fast).press(end));
        REQUIRE(all.scans.size() == 1);
        CHECK(all.scans[0].bytes == label);
        CHECK(all.scans[0].end == (end == test::enter_key ? CaughtScan::End::enter : CaughtScan::End::tab));
        CHECK(all.scans[0].seconds_a_key == Approx(fast));
        CHECK(all.typed.empty());
    }
}

TEST_CASE("A separator within a scan stays in it, whatever the layout has at its key") {
    for (const int mods : {test::ctrl_mod, test::ctrl_mod | test::shift_mod}) {
        Keys keys;
        keys.type("]C110FL-1", fast).wait(fast).press(test::bracket_key, mods);
        keys.type("15270531", fast).wait(fast).press(test::enter_key);
        const auto all = heard(keys);
        REQUIRE(all.scans.size() == 1);
        CHECK(all.scans[0].bytes == "]C110FL-1\x1d"
                                    "15270531");
        CHECK(all.typed.empty());
    }
    // Also as the first of all, as some readers send the start.
    const auto first = heard(Keys().type("\x1d" + label.substr(3), fast).wait(fast).press(test::enter_key));
    REQUIRE(first.scans.size() == 1);
    CHECK(first.scans[0].bytes == "\x1d" + label.substr(3));
}

TEST_CASE("What a separator is typed as is what the reader of scans takes for one") {
    CHECK(ui::typed_separator == exchange::shown_separator);
}

TEST_CASE("The separator's key alone goes on as the key that it is: on a German layout it zooms") {
    const auto alone = heard(Keys().press(test::bracket_key, test::ctrl_mod));
    CHECK(alone.has_key(test::bracket_key, test::ctrl_mod));
    CHECK(alone.text().empty());
    const auto later = heard(Keys().type('a').wait(0.2).press(test::bracket_key, test::ctrl_mod));
    CHECK(later.has_key(test::bracket_key, test::ctrl_mod));
    const auto held = heard(Keys().type('a').wait(0.02).press(test::bracket_key, test::ctrl_mod, true));
    CHECK(held.has_key(test::bracket_key, test::ctrl_mod));
    for (const auto& [key, mods] : {std::pair{61, test::ctrl_mod}, std::pair{test::bracket_key, 0},
                                    std::pair{test::bracket_key, test::ctrl_mod | test::alt_mod}})
        CHECK(heard(Keys().type("abcdefgh", fast).wait(fast).press(key, mods)).scans.empty());
}

TEST_CASE("A scanner too slow to be told from a person types into the field, its separators with it") {
    Keys keys;
    keys.type("10FL-1", 0.05).wait(0.05).press(test::bracket_key, test::ctrl_mod).type("15270531", 0.05);
    const auto all = heard(keys.wait(0.05).press(test::enter_key));
    CHECK(all.scans.empty());
    CHECK(all.text() == "10FL-1\u241d15270531");
    CHECK_FALSE(all.has_key(test::bracket_key, test::ctrl_mod));
    CHECK(all.has_key(test::enter_key));
}

TEST_CASE("A plant with slow scanners says up to which gap keys are theirs") {
    ScanReader reader;
    reader.set_longest_gap(0.06);
    const auto keys = Keys().type("FL-240917A", 0.05).wait(0.05).press(test::enter_key);
    CHECK(heard(keys, reader).scans.size() == 1);
    CHECK(heard(keys).scans.empty());
}

TEST_CASE("A scan may end with a pause alone, where it is long or says what it is") {
    CHECK(heard(Keys().type("FL-240917A", fast)).scans.size() == 1);
    CHECK(heard(Keys().type("]C0B12", fast)).scans.size() == 1);
    const auto short_one = heard(Keys().type("W24-118", fast));
    CHECK(short_one.scans.empty());
    CHECK(short_one.text() == "W24-118"); // nothing that was typed is lost
}

TEST_CASE("A short scan with Enter is one where no finger is so fast") {
    CHECK(heard(Keys().type("B-12", fast).wait(fast).press(test::enter_key)).scans.size() == 1);
    const auto rolled = heard(Keys().type("asdf", 0.03).wait(0.03).press(test::enter_key));
    CHECK(rolled.scans.empty());
    CHECK(rolled.text() == "asdf");
    CHECK(rolled.has_key(test::enter_key));
    CHECK(heard(Keys().type("123", 0.001).wait(0.001).press(test::enter_key)).scans.empty());
}

TEST_CASE("The second end that some scanners send presses nothing, and the next Enter of a person does") {
    Keys keys;
    keys.type(label, fast).wait(fast).press(test::enter_key).wait(fast).press(test::enter_key);
    CHECK(heard(keys).typed.empty());
    const auto later = heard(keys.wait(0.3).press(test::enter_key));
    CHECK(later.typed.size() == 1);
    CHECK(later.has_key(test::enter_key));
    // CR and LF as the control characters that they are: Ctrl+M, Ctrl+J.
    const auto controls =
        heard(Keys().type(label, fast).wait(fast).press('M', test::ctrl_mod).press('J', test::ctrl_mod));
    CHECK(controls.scans.size() == 1);
    CHECK(controls.typed.empty());
}

TEST_CASE("Two scans behind each other are two, and what is typed between them goes on") {
    Keys keys;
    keys.type(label, fast).wait(fast).press(test::enter_key);
    keys.wait(0.5).type("25", 0.12).wait(0.5).type("]C0B26-031", fast).wait(fast).press(test::enter_key);
    const auto all = heard(keys);
    REQUIRE(all.scans.size() == 2);
    CHECK(all.scans[1].bytes == "]C0B26-031");
    CHECK(all.text() == "25");
    CHECK_FALSE(all.has_key(test::enter_key));
}

TEST_CASE("A scan that stumbles within stays one, and a torn one is two") {
    Keys keys;
    keys.type(label.substr(0, 12), fast).wait(0.06).type(label.substr(12), fast);
    const auto whole = heard(keys.wait(fast).press(test::enter_key));
    REQUIRE(whole.scans.size() == 1);
    CHECK(whole.scans[0].bytes == label);
    Keys torn;
    torn.type(label.substr(0, 12), fast).wait(0.6).type(label.substr(12), fast);
    const auto parts = heard(torn.wait(fast).press(test::enter_key));
    REQUIRE(parts.scans.size() == 2);
    CHECK(parts.scans[0].bytes + parts.scans[1].bytes == label);
    CHECK(parts.typed.empty());
}

TEST_CASE("Characters that come of no key of their own are a person's: pasted, or of an input method") {
    Keys keys;
    for (const char* sign : {"\u30d1", "\u30f3", "\u5c0f", "\u9ea6", "\u7c89", "1", "2", "3", "4", "5", "6"})
        keys.character(sign);
    const auto all = heard(keys.press(test::enter_key));
    CHECK(all.scans.empty());
    CHECK(all.text() == "\u30d1\u30f3\u5c0f\u9ea6\u7c89123456");
    CHECK(all.has_key(test::enter_key));
}

TEST_CASE("What an input method gives at once for keys typed long before is a person's, too") {
    Keys keys;
    for (const char c : std::string("xiaomaifen"))
        keys.wait(0.15).press(c - 'a' + 'A'); // the input method keeps their characters
    keys.wait(0.15);
    for (const char* sign : {"\u5c0f", "\u9ea6", "\u7c89", "1", "2", "3", "4", "5", "6", "7"})
        keys.character(sign);
    const auto all = heard(keys.wait(0.01).press(test::enter_key));
    CHECK(all.scans.empty());
    CHECK(all.text() == "\u5c0f\u9ea6\u7c891234567");
}

TEST_CASE("Fingers rolled over four keys hold nothing of what is typed after them back") {
    ScanReader reader;
    Keys keys;
    hear(reader, keys.type("asdf", 0.025));
    Keys on;
    on.now = keys.now;
    hear(reader, on.type("g", 0.09));
    CHECK(Heard{reader.take_typed(), {}}.text() == "asdf");
    reader.wait_until(on.now + 1);
    CHECK(reader.take_scans().empty());
}

TEST_CASE("A key that is held down is a person's, however fast it repeats") {
    Keys keys;
    keys.type('x');
    for (int i = 0; i < 30; ++i)
        keys.wait(0.02).press('X', 0, true).character("x");
    const auto all = heard(keys.wait(0.02).press(test::enter_key));
    CHECK(all.scans.empty());
    CHECK(all.text() == std::string(31, 'x'));
}

TEST_CASE("Keys without a character are obeyed at once, and what was typed before them comes before them") {
    ScanReader reader;
    hear(reader, Keys().type('a').wait(0.01).press(test::left_key));
    const auto typed = reader.take_typed();
    REQUIRE(typed.size() == 3);
    CHECK(typed[1].text == "a");
    CHECK(typed[2].key == test::left_key);
    // A press of the pointer waits for nothing, but not in the midst of a scan.
    hear(reader, Keys().type("ab", 0.01));
    reader.let_go();
    CHECK(Heard{reader.take_typed(), {}}.text() == "ab");
    hear(reader, Keys().wait(1).type("FL-24", fast));
    reader.let_go();
    CHECK(reader.take_typed().empty());
}

TEST_CASE("A busy window that fetches a person's keys all at once does not take them for a scan") {
    Keys keys;
    keys.now = 101;
    for (const char c : std::string("1250"))
        keys.type(c);
    const auto all = fetched(keys.press(test::enter_key), 100.3); // 700 ms behind, for five keys
    CHECK(all.scans.empty());
    CHECK(all.text() == "1250");
    CHECK(all.has_key(test::enter_key));
}

TEST_CASE("A busy window knows a scan all the same, by how many keys came in that time") {
    Keys keys;
    keys.now = 101;
    for (const char c : label)
        keys.type(c);
    const auto all = fetched(keys.press(test::enter_key), 100.7);
    REQUIRE(all.scans.size() == 1);
    CHECK(all.scans[0].bytes == label);
    CHECK(all.typed.empty());
}

// Measured by others: a scanner's keys come every 7 to 8 ms, now and then after 16 ("Scanner or person?",
// bitsnpixels.dev).
TEST_CASE("Gaps as they were measured of a scanner make one scan, at every start") {
    std::mt19937 chance(24);
    for (int scan = 0; scan < 500; ++scan) {
        Keys keys;
        for (const char c : label)
            keys.wait(chance() % 8 == 0 ? 0.016 : 0.0075).type(c);
        const auto all = heard(keys.wait(0.0075).press(test::enter_key));
        REQUIRE(all.scans.size() == 1);
        REQUIRE(all.scans[0].bytes == label);
        REQUIRE(all.typed.empty());
    }
}

namespace {

/// From key to key of 51 people who typed a password of ten signs and Return 400 times, 204,000 gaps:
/// K. S. Killourhy, R. A. Maxion, Comparing Anomaly-Detection Algorithms for Keystroke Dynamics, DSN 2009;
/// quantiles of its data set, seconds. Between two of them a gap is as likely at each place, which makes
/// the fastest more frequent than they were.
double gap_of_a_person(double share) {
    constexpr std::pair<double, double> quantiles[] = {{0, 0.0011},    {0.05, 0.0779}, {0.10, 0.0945},
                                                       {0.25, 0.1284}, {0.50, 0.1911}, {0.75, 0.3007},
                                                       {0.90, 0.4623}, {0.95, 0.6021}, {1, 1.0402}};
    for (std::size_t i = 1; i < std::size(quantiles); ++i) {
        const auto [from, low] = quantiles[i - 1];
        const auto [to, high] = quantiles[i];
        if (share <= to)
            return low + (high - low) * (share - from) / (to - from);
    }
    return quantiles[8].second;
}

} // namespace

TEST_CASE(
    "Nothing of 100,000 keys of people is taken for a scan, and each goes on within 40 ms in its order") {
    std::mt19937 chance(7);
    std::uniform_real_distribution<double> share(0, 1);
    constexpr std::string_view text = "25 kg flour, moisture 14,1 - W24-118";
    ScanReader reader;
    Keys keys;
    std::vector<std::pair<double, KeyStroke>> went; // when, and what
    const auto take = [&](double now) {
        for (auto& stroke : reader.take_typed())
            went.emplace_back(now, std::move(stroke));
    };
    std::string expected;
    for (int key = 0; key < 100'000; ++key) {
        const double gap = gap_of_a_person(share(chance));
        if (const auto due = reader.due(); due && *due < keys.now + gap) { // the window wakes for it
            reader.wait_until(*due);
            take(*due);
        }
        keys.wait(gap);
        const bool is_enter = key % 11 == 10;
        const auto from = keys.strokes.size();
        if (is_enter)
            keys.press(test::enter_key);
        else
            keys.type(text[static_cast<std::size_t>(key) % text.size()]);
        expected += is_enter ? std::string("\n") : keys.strokes.back().text;
        for (auto i = from; i < keys.strokes.size(); ++i)
            reader.hear(keys.strokes[i]);
        take(keys.now);
    }
    reader.wait_until(keys.now + 1);
    take(keys.now);
    CHECK(reader.take_scans().empty());
    std::string typed;
    int late = 0;
    for (const auto& [when, stroke] : went) {
        typed += stroke.key == test::enter_key ? std::string("\n") : stroke.text;
        late += when - stroke.seconds > 0.040 ? 1 : 0;
    }
    CHECK(typed == expected);
    // Later are the first of two or three that came within 35 ms of each other.
    CHECK(late < static_cast<int>(went.size()) / 20);
}

TEST_CASE("What is held back is let go when it is due, and not before") {
    ScanReader reader;
    CHECK_FALSE(reader.due());
    Keys keys;
    hear(reader, keys.type('a'));
    REQUIRE(reader.due());
    CHECK(*reader.due() == Approx(100.036));
    reader.wait_until(100.030);
    CHECK(reader.take_typed().empty());
    reader.wait_until(*reader.due());
    CHECK(Heard{reader.take_typed(), {}}.text() == "a");
    CHECK_FALSE(reader.due());
}
