// What was left by a window that is gone, and the window that is closed with work begun.

#include "app/book/clock.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/temporary_folder.h"
#include "ui/shell/keeping.h"
#include "ui/views/whole_window.h"

#include <filesystem>
#include <fstream>

using namespace mellowbin;
using test::WholeWindow;
using ui::Keeping;
using views::Screen;
namespace fs = std::filesystem;

namespace {

const Instant at_four =
    Instant{day_from_iso("2026-11-24")} + std::chrono::hours{3} + std::chrono::minutes{12};

/// A window whose work is kept; what it asks of the window's frame is done after each press.
struct KeptWindow : WholeWindow {
    app::Clock clock{[] { return at_four; }, {}, "Europe/Berlin"};
    Keeping keeping;
    Keeping::After after = Keeping::After::nothing;

    explicit KeptWindow(const fs::path& state, Screen first = Screen::intake)
        : WholeWindow(first), keeping("/srv/bakery/book.mbook", state, app::KeptWork::Use::keep, {}) {
        next();
    }
    [[nodiscard]] views::Models models() const {
        return {notice, overview, intake, lots, readiness, plan, mixer, plant, settings, setting_up, trace};
    }
    /// What the shell does around a frame.
    void next() {
        screen.settle();
        app::Intents opens;
        after = keeping.follow(screens, models(), clock.now(), opens);
        keeping.tell(screens, clock);
        screen.settle();
    }
    void click(std::string_view words) {
        screen.click(words);
        next();
    }
    bool closes() {
        const bool may = keeping.may_close(screens, models(), clock.now());
        next();
        return may;
    }
};

struct Dock {
    tests::TemporaryFolder folder;
    fs::path state = folder / "state";

    /// A window in which a lot is typed, and which is gone before anybody asked.
    void crash() const {
        KeptWindow w(state);
        w.screen.type("Lot number", "W26-150");
        w.screen.type("Weight", "1 000,5");
        w.next();
    }
};

} // namespace

TEST_CASE("At the next start a strip says what was begun, and when by the plant's time") {
    const Dock dock;
    dock.crash();
    KeptWindow w(dock.state, Screen::lots);
    CHECK(w.screen.says("Work begun on Tue 24 Nov 2026, 04:12 was kept: a delivery of 1 lot"));
    CHECK(w.did.empty());
}

TEST_CASE("Taken up, the same fields stand on the same screen, and nothing is offered any more") {
    const Dock dock;
    dock.crash();
    {
        KeptWindow w(dock.state, Screen::lots);
        w.click("Take it up");
        CHECK(w.screens.current() == Screen::intake);
        CHECK(w.screen.value_of("Lot number") == "W26-150");
        CHECK(w.screen.value_of("Weight") == "1 000,5");
        CHECK_FALSE(w.screen.offers("Take it up"));
    }
    KeptWindow again(dock.state); // it was not taken in yet
    CHECK(again.screen.offers("Take it up"));
}

TEST_CASE("Work is thrown away only after it was asked, and Escape keeps it") {
    const Dock dock;
    dock.crash();
    {
        KeptWindow w(dock.state);
        w.click("Throw it away");
        CHECK(w.screen.says("What was typed of it is then lost"));
        w.screen.press(ui::Key::escape);
        w.next();
        CHECK(w.screen.offers("Take it up"));
        w.click("Throw it away");
        w.click("Throw it away");
        CHECK_FALSE(w.screen.offers("Take it up"));
    }
    CHECK_FALSE(KeptWindow(dock.state).screen.offers("Take it up"));
}

TEST_CASE("Two windows on one book: what is typed in one is neither offered nor touched by the other") {
    const Dock dock;
    app::KeptWork first("/srv/bakery/book.mbook", dock.state); // of a window that is there
    first.keep({{"a delivery of 1 lot"}, {{"intake/scanned", "W26-150"}}}, at_four);
    REQUIRE(first.finish());
    {
        KeptWindow second(dock.state);
        CHECK_FALSE(second.screen.offers("Take it up"));
        second.screen.type("Lot number", "W26-200");
        second.next();
    }
    KeptWindow third(dock.state);
    third.click("Take it up");
    CHECK(third.screen.value_of("Lot number") == "W26-200");
    CHECK_FALSE(third.screen.offers("Take it up"));
}

TEST_CASE("A window without work begun closes without a word") {
    const Dock dock;
    KeptWindow w(dock.state);
    CHECK(w.closes());
    CHECK_FALSE(w.screen.says("Close with work begun?"));
}

TEST_CASE("Closing with work begun asks and says what is begun; Escape goes on") {
    const Dock dock;
    KeptWindow w(dock.state);
    w.screen.type("Lot number", "W26-150");
    CHECK_FALSE(w.closes());
    CHECK(w.screen.says("Close with work begun?"));
    CHECK(w.screen.says("a delivery of 1 lot"));
    w.screen.press(ui::Key::escape);
    w.next();
    CHECK_FALSE(w.screen.says("Close with work begun?"));
    CHECK(w.after == Keeping::After::nothing);
    CHECK(w.screen.value_of("Lot number") == "W26-150");

    CHECK_FALSE(w.closes());
    w.screen.click("Keep it for the next time and close");
    app::Intents opens;
    CHECK(w.keeping.follow(w.screens, w.models(), at_four, opens) == Keeping::After::closing);
}

TEST_CASE("What was kept at closing is offered at the next start") {
    const Dock dock;
    {
        KeptWindow w(dock.state);
        w.screen.type("Lot number", "W26-150");
        CHECK_FALSE(w.closes());
        w.click("Keep it for the next time and close");
    }
    CHECK(KeptWindow(dock.state).screen.offers("Take it up"));
}

TEST_CASE("Where work cannot be kept it is said once, and closing does not promise to keep it") {
    const Dock dock;
    std::ofstream(dock.state) << "a file where the folder should be\n";
    KeptWindow w(dock.state);
    CHECK(w.screen.says("What is typed is not kept for the next start"));
    w.click("Understood");
    w.screen.type("Lot number", "W26-150");
    w.next();
    CHECK_FALSE(w.screen.says("not kept for the next start"));
    CHECK_FALSE(w.closes());
    CHECK_FALSE(w.screen.offers("Keep it for the next time and close"));
    CHECK(w.screen.says("closed, what was typed is lost"));
    w.screen.press(ui::Key::escape);
    w.next();
    CHECK(w.screen.value_of("Lot number") == "W26-150");
}

TEST_CASE("A lot that is taken in leaves nothing to be offered") {
    const Dock dock;
    {
        KeptWindow w(dock.state);
        w.screen.type("Lot number", "W26-150");
        w.next();
        w.screens.intake.sent = {w.screens.intake.delivery.at_hand().number};
        w.intake.taken_in = 1;
        w.tell(test::done(1, "Taken in"));
        w.next();
        CHECK(w.closes());
    }
    CHECK_FALSE(KeptWindow(dock.state).screen.offers("Take it up"));
}
