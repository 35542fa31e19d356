#include "exchange/scan.h"
#include "support/catch.h"
#include "ui/shell/scan_keys.h"

using mellowbin::ui::ScanKeys;

namespace {

constexpr int right_bracket = 93; // GLFW's token: the key by its place on an American keyboard
constexpr int equal = 61;
constexpr int shift = 1, ctrl = 2, alt = 4;

} // namespace

TEST_CASE("Ctrl and ] in the midst of a scanner's characters is a group separator") {
    ScanKeys keys;
    keys.typed(10.000);
    CHECK(keys.is_separator(right_bracket, ctrl, 10.020));
    keys.typed(10.020);
    CHECK(keys.is_separator(right_bracket, ctrl | shift, 10.050));
}

TEST_CASE("The same key of a person, who makes the text larger on another layout, is none") {
    ScanKeys keys;
    CHECK_FALSE(keys.is_separator(right_bracket, ctrl, 0.010)); // nothing was typed yet
    keys.typed(10);
    CHECK_FALSE(keys.is_separator(right_bracket, ctrl, 10.2));
}

TEST_CASE("Other keys are none, however fast they come") {
    ScanKeys keys;
    keys.typed(10);
    CHECK_FALSE(keys.is_separator(equal, ctrl, 10.01));
    CHECK_FALSE(keys.is_separator(right_bracket, 0, 10.01));
    CHECK_FALSE(keys.is_separator(right_bracket, ctrl | alt, 10.01));
}

TEST_CASE("What a separator is typed as is what the reader of scans takes for one") {
    CHECK(mellowbin::ui::typed_separator == mellowbin::exchange::shown_separator);
}
