#include "window_on_display.h"

#include "cli/command_line.h"
#include "support/catch.h"

#include <filesystem>
#include <thread>
#include <vector>

namespace mellowbin::tests {

using namespace std::chrono_literals;

WindowOnDisplay::WindowOnDisplay() { REQUIRE(terminal.on_book({"demo"}) == cli::done); }

std::unique_ptr<StartedProgram> WindowOnDisplay::start() const {
    return std::make_unique<StartedProgram>(
        std::vector<std::string>{MELLOWBIN_PROGRAM, "window", "--today", "2026-11-25", "--book",
                                 terminal.book()},
        // The display's own driver leaks a few bytes when it is unloaded.
        std::vector<std::string>{"DISPLAY=" + display->name(), "MELLOWBIN_STATE=" + state,
                                 "ASAN_OPTIONS=detect_leaks=0", "LC_ALL=C.UTF-8"});
}

std::unique_ptr<StartedProgram> WindowOnDisplay::start_and_wait() const {
    auto window = start();
    REQUIRE(display->has_window(60s));
    for (int tries = 0; tries < 60 && !is_something_kept(); ++tries) {
        display->press("F9");
        std::this_thread::sleep_for(200ms);
        display->type('z');
        std::this_thread::sleep_for(800ms);
    }
    REQUIRE(is_something_kept());
    display->press("Return");
    std::this_thread::sleep_for(300ms);
    return window;
}

bool WindowOnDisplay::is_something_kept() const {
    std::error_code none_yet;
    for (const auto& entry : std::filesystem::directory_iterator(state, none_yet))
        if (entry.path().extension() == ".kept")
            return true;
    return false;
}

} // namespace mellowbin::tests
