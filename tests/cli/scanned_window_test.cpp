// The program as built, in a real window on a display of its own: a scanner types into it, wherever the
// cursor stands, as fast as scanners do and with Ctrl+] for the separator.

#include "app/book/kept_work.h"
#include "support/catch.h"
#include "window_on_display.h"

#include <algorithm>
#include <csignal>
#include <map>
#include <thread>

using namespace mellowbin;
using namespace std::chrono_literals;

namespace {

using Fields = std::map<std::string, std::string>;

/// A field of what is kept whose path ends so, and that holds the text.
bool has(const Fields& fields, const std::string& path_end, const std::string& text) {
    return std::any_of(fields.begin(), fields.end(), [&](const auto& field) {
        return field.first.ends_with(path_end) && field.second == text;
    });
}

/// What stands in the window once it was told to end; the person's work is kept by then.
KeptText left_by(const tests::WindowOnDisplay& at, tests::StartedProgram& window) {
    std::this_thread::sleep_for(700ms); // until the last key was seen and drawn
    window.tell(SIGTERM);
    REQUIRE(window.ended(20s) == 0);
    app::KeptWork work(at.terminal.book(), at.state, app::KeptWork::Use::look);
    REQUIRE(work.left());
    return work.left()->text;
}

void type_slowly(tests::Display& display, std::string_view text) { display.scan(text, 110ms); }

} // namespace

TEST_CASE("A scan in a real window fills the form and leaves alone the field in which somebody types") {
    for (const auto gap : {2ms, 16ms}) {
        tests::WindowOnDisplay at;
        if (!at.display) {
            WARN("no Xvfb: skipped");
            return;
        }
        INFO(gap.count() << " ms from key to key");
        const auto window = at.start_and_wait();
        at.display->press("F9"); // the cursor is in a field, in which half a number stands
        std::this_thread::sleep_for(300ms);
        type_slowly(*at.display, "HALF-1");
        std::this_thread::sleep_for(300ms);
        at.display->scan("]C1010952123454321310FL-240917A\x1d"
                         "15270531",
                         gap);
        at.display->press("Return");
        std::this_thread::sleep_for(300ms);

        const auto text = left_by(at, *window);
        CHECK(has(text.fields, "/draft/code", "FL-240917A"));
        CHECK(has(text.fields, "/draft/best_before", "2027-05-31"));
        CHECK(has(text.fields, "intake/scanned", "HALF-1"));
        CHECK(has(text.fields, "/draft/code", "z")); // nothing was taken in
    }
}

TEST_CASE("What a person types in a real window arrives letter by letter, with Enter behind it") {
    tests::WindowOnDisplay at;
    if (!at.display) {
        WARN("no Xvfb: skipped");
        return;
    }
    const auto window = at.start_and_wait();
    at.display->press("F9");
    std::this_thread::sleep_for(300ms);
    at.display->scan("W26-150", 70ms); // faster than nearly everybody
    at.display->press("Return");
    std::this_thread::sleep_for(300ms);
    const auto text = left_by(at, *window);
    CHECK(has(text.fields, "/draft/code", "W26-150"));
}
