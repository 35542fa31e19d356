#include "core/sampling.h"
#include "support/catch.h"

#include <string>

using namespace mellowbin;

// ISO 2859-1 was not read; its rules are from memory, and agree with what is named in sampling.h. The
// sequences below were worked through by hand from the rules as words.

namespace {

/// 'A' accepted, 'x' not; 'a' accepted, but not at a limit one step tighter; '|' the supplier mended the
/// cause.
std::vector<InspectedLot> lots(const std::string& signs) {
    std::vector<InspectedLot> all;
    bool is_mended = false;
    for (const char sign : signs) {
        if (sign != '|')
            all.push_back({sign != 'x', sign == 'A', is_mended});
        is_mended = sign == '|';
    }
    return all;
}

Switching after(const std::string& signs, int acceptance_number = 0) {
    return switching_after(lots(signs), acceptance_number, signs.ends_with('|'));
}

using Places = std::vector<std::size_t>;

} // namespace

TEST_CASE("Inspection begins as normal, with no score") {
    const auto begun = after("");
    CHECK(begun.severity == Severity::normal);
    CHECK(begun.score == 0);
    CHECK_FALSE(begun.since);
}

TEST_CASE("Two of five or fewer consecutive lots not accepted lead to tightened inspection") {
    CHECK(after("x").severity == Severity::normal);
    CHECK(after("xx").severity == Severity::tightened);
    CHECK(after("AAAxA").severity == Severity::normal);
    CHECK(after("xAAAx").severity == Severity::tightened);
    CHECK(after("xAAAAx").severity == Severity::normal); // the second is the sixth
    CHECK(after("xAAAAxAAx").severity == Severity::tightened);
    const auto tightened = after("AxAAxA");
    CHECK(tightened.since == 4);
    CHECK(tightened.because == Places{1, 4});
}

TEST_CASE("Five consecutive lots accepted lead from tightened back to normal inspection") {
    CHECK(after("xxAAAA").severity == Severity::tightened);
    CHECK(after("xxAAAAA").severity == Severity::normal);
    CHECK(after("xxAAAAA").since == 6);
    CHECK(after("xxAAAAxAAAA").severity == Severity::tightened); // the row was broken
    CHECK(after("xxAAAAxAAAAA").severity == Severity::normal);
    CHECK(after("xxAAAAAx").severity == Severity::normal); // one of five, again
}

TEST_CASE("The fifth lot not accepted while tightened discontinues, however many lie between") {
    CHECK(after("xxxxxx").severity == Severity::tightened); // four while tightened
    const auto at_once = after("xxxxxxx");
    CHECK(at_once.severity == Severity::discontinued);
    CHECK(at_once.because == Places{2, 3, 4, 5, 6});
    CHECK(after("xxAAxAAAAxAxAAx").severity == Severity::tightened);
    CHECK(after("xxAAxAAAAxAxAAxAAAx").severity == Severity::discontinued);
    // Those of a time before, with normal inspection between, do not count.
    CHECK(after("xxxxxxAAAAAxxxxx").severity == Severity::tightened);
    CHECK(after("xxxxxxAAAAAxxxxxxx").because == Places{13, 14, 15, 16, 17});
}

TEST_CASE("What was discontinued stays so until the cause was mended, and goes on as tightened") {
    CHECK(after("xxxxxxxAAAAAAAAAA").severity == Severity::discontinued);
    CHECK(after("xxxxxxx|").severity == Severity::tightened);
    CHECK(after("xxxxxxx|AAAA").severity == Severity::tightened);
    CHECK(after("xxxxxxx|AAAAA").severity == Severity::normal);
    CHECK(after("xxxxxxx|xxxxx").severity == Severity::discontinued);
    CHECK(after("xxxxxxx|xxxx").severity == Severity::tightened);
    CHECK(after("A|A").severity == Severity::normal); // nothing was discontinued
}

TEST_CASE("A score of 30 leads to reduced: fifteen lots in a row of a plan that accepts none or one") {
    CHECK(after(std::string(14, 'A')).severity == Severity::normal);
    CHECK(after(std::string(14, 'A')).score == 28);
    const auto reduced = after(std::string(15, 'A'));
    CHECK(reduced.severity == Severity::reduced);
    CHECK(reduced.since == 14);
    CHECK(after(std::string(14, 'A') + "x").score == 0);
    CHECK(after(std::string(14, 'A') + "x" + std::string(14, 'A')).severity == Severity::normal);
    CHECK(after(std::string(15, 'A'), 1).severity == Severity::reduced);
    CHECK(after(std::string(15, 'a')).severity == Severity::reduced); // one step tighter is not asked for
}

TEST_CASE("Of a plan that accepts two and more it takes ten lots, each accepted one step tighter, too") {
    // MIL-STD-105E, 4.7.3, asked for the preceding ten lots.
    CHECK(after(std::string(9, 'A'), 2).score == 27);
    CHECK(after(std::string(10, 'A'), 2).severity == Severity::reduced);
    const auto broken = after("AAAAAAAAAaA", 2);
    CHECK(broken.severity == Severity::normal);
    CHECK(broken.score == 3);
}

TEST_CASE("The score is counted anew on each return to normal, and not while tightened") {
    CHECK(after("xx" + std::string(5, 'A')).score == 0);
    CHECK(after("xx" + std::string(19, 'A')).severity == Severity::normal);
    CHECK(after("xx" + std::string(20, 'A')).severity == Severity::reduced);
}

TEST_CASE("One lot not accepted ends reduced inspection; a second within five leads to tightened") {
    const std::string reduced(15, 'A');
    CHECK(after(reduced + std::string(40, 'A')).severity == Severity::reduced);
    const auto normal = after(reduced + "AAAx");
    CHECK(normal.severity == Severity::normal);
    CHECK(normal.because == Places{18});
    CHECK(normal.score == 0);
    CHECK(after(reduced + "xAAAx").severity == Severity::tightened);
    CHECK(after(reduced + "xAAAAx").severity == Severity::normal);
}
