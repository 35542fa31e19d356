// The program as built, in a real window on a display of its own: a person types a delivery, and the window
// is killed at instants that nobody chose. MELLOWBIN_KILLS=50 kills it 50 times, MELLOWBIN_KILL_SEED=7
// chooses the instants of another run; 2 kills are in the ordinary run.

#include "app/book/kept_work.h"
#include "cli/command_line.h"
#include "support/catch.h"
#include "terminal.h"
#include "window_on_display.h"

#include <fmt/format.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <random>
#include <thread>

using namespace mellowbin;
using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

namespace {

int number_from(const char* name, int otherwise) {
    const char* text = std::getenv(name);
    return text ? std::atoi(text) : otherwise;
}

/// What a person has typed by some instant: lots that were scanned, and the number that is half typed.
struct Typed {
    Clock::time_point at;
    std::vector<std::string> lots;
    std::string half;
};

/// A dock at which somebody types.
struct Dock : tests::WindowOnDisplay {
    std::vector<Typed> typed;

    void remember(std::vector<std::string> lots, std::string half) {
        typed.push_back({Clock::now(), std::move(lots), std::move(half)});
    }
    /// Scans lot after lot with a keyboard until the instant comes.
    void type_until(Clock::time_point end, std::mt19937& chance) {
        std::vector<std::string> lots;
        typed.clear();
        remember({}, "");
        const auto pause = [&](int least, int most) {
            std::this_thread::sleep_until(std::min(
                end, Clock::now() +
                         std::chrono::milliseconds(std::uniform_int_distribution<int>(least, most)(chance))));
            return Clock::now() < end;
        };
        for (int number = 1; Clock::now() < end; ++number) {
            const auto code = fmt::format("K24-{:03}", number);
            display->press("F9");
            if (!pause(120, 200))
                return;
            std::string half;
            for (const char letter : code) {
                display->type(letter);
                remember(lots, half += letter);
                if (!pause(60, 110))
                    return;
            }
            display->press("Return");
            lots.push_back(code);
            remember(lots, "");
            if (!pause(150, 250))
                return;
        }
    }
    /// What was typed a second before.
    [[nodiscard]] Typed typed_by(Clock::time_point instant) const {
        const auto after =
            std::find_if(typed.begin(), typed.end(), [&](const Typed& one) { return one.at > instant; });
        return after == typed.begin() ? Typed{} : *std::prev(after);
    }
};

bool has_lot(const KeptText& text, const std::string& begins) {
    return std::any_of(text.fields.begin(), text.fields.end(), [&](const auto& field) {
        return (field.first.ends_with("/draft/code") || field.first == "intake/scanned") &&
               field.second.starts_with(begins);
    });
}

/// All of it is there, also where it was typed on since.
void check_kept(const KeptText& text, const Typed& a_second_before) {
    for (const auto& lot : a_second_before.lots)
        if (!has_lot(text, lot))
            FAIL_CHECK("lot " << lot << " is lost");
    if (!a_second_before.half.empty() && !has_lot(text, a_second_before.half))
        FAIL_CHECK("the half number " << a_second_before.half << " is lost");
}

void throw_all_away(const Dock& dock) {
    app::KeptWork work(dock.terminal.book(), dock.state);
    while (work.left())
        work.throw_away();
}

} // namespace

TEST_CASE("What was typed a second before the window is killed is there, and offered at the next start") {
    Dock dock;
    if (!dock.display) {
        WARN("no Xvfb: skipped");
        return;
    }
    const int kills = number_from("MELLOWBIN_KILLS", 2), seed = number_from("MELLOWBIN_KILL_SEED", 24);
    std::mt19937 chance(static_cast<std::mt19937::result_type>(seed));
    for (int kill = 0; kill < kills; ++kill) {
        throw_all_away(dock);
        const auto window = dock.start_and_wait();
        const auto lasts =
            std::chrono::milliseconds(std::uniform_int_distribution<int>(1'600, 3'200)(chance));
        dock.type_until(Clock::now() + lasts, chance);
        const auto killed_at = Clock::now();
        window->kill();

        const auto expected = dock.typed_by(killed_at - 1s);
        INFO(fmt::format(
            "seed {}, kill {} of {}, {} ms after the first key: {} lots and \"{}\" a second before", seed,
            kill + 1, kills, lasts.count(), expected.lots.size(), expected.half));
        app::KeptWork work(dock.terminal.book(), dock.state, app::KeptWork::Use::look);
        CHECK(work.take_trouble().empty());
        if (expected.lots.empty() && expected.half.empty())
            continue; // nothing was promised yet
        REQUIRE(work.left());
        check_kept(work.left()->text, expected);
    }
    // The program itself offers it: a picture is drawn after what has these words was pressed.
    const auto picture = dock.terminal.file("offered.png");
    tests::StartedProgram offered(
        {MELLOWBIN_PROGRAM, "window", "--shot", picture, "--screen", "Lots", "--open", "Take it up",
         "--today", "2026-11-25", "--book", dock.terminal.book()},
        {"DISPLAY=" + dock.display->name(), "MELLOWBIN_STATE=" + dock.state, "ASAN_OPTIONS=detect_leaks=0"});
    CHECK(offered.ended(60s) == 0);
}

TEST_CASE("A window that is told to end keeps what is begun, to the last letter, and ends by itself") {
    Dock dock;
    if (!dock.display) {
        WARN("no Xvfb: skipped");
        return;
    }
    std::mt19937 chance(24);
    const auto window = dock.start_and_wait();
    dock.type_until(Clock::now() + 700ms, chance);
    std::this_thread::sleep_for(300ms); // until the window has seen the last key
    window->tell(SIGTERM);
    CHECK(window->ended(20s) == 0);
    app::KeptWork work(dock.terminal.book(), dock.state, app::KeptWork::Use::look);
    REQUIRE(work.left());
    check_kept(work.left()->text, dock.typed.back());
}
