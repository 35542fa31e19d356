// The program as built, on a real display (the test run brings a virtual one).

#include "cli/command_line.h"
#include "support/catch.h"
#include "terminal.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace mellowbin;
using tests::Terminal;

namespace {

/// The leak check is left out here: the display's own driver leaks a few bytes when it is unloaded.
int run_program(const std::string& words) {
    return std::system(
        ("ASAN_OPTIONS=detect_leaks=0 " + std::string(MELLOWBIN_PROGRAM) + " " + words).c_str());
}

/// Width and height as the PNG's head has them (ISO/IEC 15948, IHDR); zeros for another file.
std::pair<unsigned, unsigned> size_of_png(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    unsigned char head[24] = {};
    file.read(reinterpret_cast<char*>(head), sizeof head);
    if (!file || head[1] != 'P' || head[2] != 'N' || head[3] != 'G')
        return {};
    const auto number = [&](int at) {
        return static_cast<unsigned>(head[at]) << 24 | static_cast<unsigned>(head[at + 1]) << 16 |
               static_cast<unsigned>(head[at + 2]) << 8 | head[at + 3];
    };
    return {number(16), number(20)};
}

} // namespace

TEST_CASE("Each screen of the real window can be had as a picture") {
    if (!std::getenv("DISPLAY")) {
        WARN("no display: skipped");
        return;
    }
    Terminal terminal;
    REQUIRE(terminal.on_book({"demo"}) == cli::done);
    for (const char* screen : {"Intake", "Lots", "Readiness", "Plan", "Mixer", "Plant", "Settings"}) {
        const auto picture = terminal.file(std::string(screen) + ".png");
        INFO(screen);
        CHECK(run_program("window --shot " + picture + " --screen " + screen + " --today 2026-11-25 --book " +
                          terminal.book()) == 0);
        CHECK(size_of_png(picture) == std::pair{1280u, 720u});
        // An empty window compresses to next to nothing; a drawn one does not.
        CHECK(std::filesystem::file_size(picture) > 20'000);
    }
}

TEST_CASE("A lot, a page or a dialog can be opened for a picture by the words on it") {
    if (!std::getenv("DISPLAY")) {
        WARN("no display: skipped");
        return;
    }
    Terminal terminal;
    REQUIRE(terminal.on_book({"demo"}) == cli::done);
    const auto bytes_of = [&](const std::string& options) {
        const auto picture = terminal.file("opened.png");
        CHECK(run_program("window --shot " + picture + options + " --today 2026-11-25 --book " +
                          terminal.book()) == 0);
        std::ifstream file(picture, std::ios::binary);
        return std::string((std::istreambuf_iterator<char>(file)), {});
    };
    CHECK(bytes_of(" --screen Mixer") != bytes_of(" --screen Mixer --open Why"));
    CHECK(bytes_of(" --screen Lots") != bytes_of(" --screen Lots --open OF-1021"));
    CHECK(run_program("window --shot /dev/null --screen Mixer --open Cellar --today 2026-11-25 --book " +
                      terminal.book() + " 2>" + terminal.file("err")) != 0);
}

TEST_CASE("A screen that does not exist is said, with those that do") {
    if (!std::getenv("DISPLAY")) {
        WARN("no display: skipped");
        return;
    }
    Terminal terminal;
    REQUIRE(terminal.on_book({"demo"}) == cli::done);
    CHECK(run_program("window --shot /dev/null --screen Cellar --book " + terminal.book() + " 2>" +
                      terminal.file("err")) != 0);
}

TEST_CASE("Without a display the program says so and ends, instead of crashing") {
    Terminal terminal;
    REQUIRE(terminal.on_book({"demo"}) == cli::done);
    const int code = std::system(("env -u DISPLAY -u WAYLAND_DISPLAY " + std::string(MELLOWBIN_PROGRAM) +
                                  " window --book " + terminal.book() + " 2>" + terminal.file("err"))
                                     .c_str());
    CHECK(WEXITSTATUS(code) == cli::not_done);
    std::ifstream file(terminal.file("err"));
    std::string words((std::istreambuf_iterator<char>(file)), {});
    CHECK(words.find("display") != std::string::npos);
}
