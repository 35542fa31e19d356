#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/acts/read_scan.h"
#include "app/acts/scanner.h"
#include "support/catch.h"
#include "ui/views/intake_typing.h"
#include "ui/views/mixer_opened.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using ui::Key;
using views::Screen;
using At = app::ReadScan::At;

namespace {

const std::string label = "]C1010952123454321310W26-150\x1d"
                          "15270531";

void scan(WholeWindow& window, const std::string& bytes) {
    window.screens.scanned({bytes});
    window.screen.settle();
}

std::size_t scans_in(const app::Intents& did) {
    return static_cast<std::size_t>(std::count_if(
        did.begin(), did.end(), [](const auto& act) { return act.template as<app::ReadScan>(); }));
}

/// The last one; others may have been done behind it (a page that is left is put away).
app::ReadScan the_scan(const WholeWindow& window) {
    for (auto act = window.did.rbegin(); act != window.did.rend(); ++act)
        if (const auto* scan_act = act->as<app::ReadScan>())
            return *scan_act;
    throw std::runtime_error("nothing was scanned");
}

} // namespace

TEST_CASE("A scan on Intake is read wherever the cursor stands, and what stood in the field stays") {
    WholeWindow window(Screen::intake);
    for (const char* field : {"Delivery note", "Lot number", "Scan or lot number"}) {
        window.screen.type(field, "DN 47");
        scan(window, label);
        CHECK(window.last<app::ReadScan>().scan == label);
        CHECK(window.last<app::ReadScan>().at == At::intake);
        CHECK(window.screen.value_of(field) == "DN 47");
    }
}

TEST_CASE("A scan fills the form and never takes the delivery in") {
    WholeWindow window(Screen::intake);
    test::type_whole_lot(window.screen, "W26-149");
    scan(window, label);
    test::answer_label(window, "W26-150");
    for (const auto& act : window.did)
        CHECK_FALSE(act.as<app::TakeIn>());
    CHECK(window.screen.value_of("Lot number") == "W26-150");
    CHECK(window.screen.offers("Take in 1 of 2")); // the one that was typed is a lot of its own, and whole
    CHECK(window.screens.intake.delivery.has("W26-149"));
}

TEST_CASE("What is no label is asked about, with the answer under Enter, and the lot typed by hand stays") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-149");
    scan(window, "PO-4711");
    window.intake.plain = {"PO-4711", 1};
    screen.settle();
    CHECK(screen.says("\"PO-4711\" is no GS1 label. Is it a lot number?"));
    CHECK(screen.value_of("Lot number") == "W26-149");
    CHECK(screen.focused() == "Take PO-4711 as a lot number");
    screen.press(Key::enter);
    CHECK(window.last<app::ReadScan>().scan == "PO-4711");
    CHECK(window.last<app::ReadScan>().plain == app::ReadLabel::Plain::is_lot_number);

    window.intake.plain = {"99", 2};
    screen.settle();
    screen.click("Leave it");
    CHECK_FALSE(screen.says("is no GS1 label"));
    CHECK(screen.value_of("Lot number") == "W26-149");
}

TEST_CASE("A lot number that no GS1 label can have says so beside its field, and is taken in") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    test::type_whole_lot(screen, "LOT 5");
    CHECK(screen.says("cannot stand in a GS1 label"));
    CHECK(screen.is_enabled("Take in 1 lot"));
    screen.type("Lot number", "LOT-5");
    CHECK_FALSE(screen.says("cannot stand in a GS1 label"));
}

TEST_CASE("A scan at the mixer is held against the card, from any of its pages, and leaves its field alone") {
    for (const char* page : {"Batch", "Why", "Logged", "Remedies", "Keeping"}) {
        INFO(page);
        WholeWindow window(Screen::mixer);
        window.screen.click(page);
        scan(window, label);
        CHECK(scans_in(window.did) == 1);
        const auto act = the_scan(window);
        CHECK(act.at == At::mixer);
        CHECK(act.run == RunId{11});
        CHECK(act.scan == label);
        CHECK(window.screens.mixer.page == views::MixerView::batch_page);
    }
    WholeWindow window(Screen::mixer);
    window.screen.type("Scan a bag", "B26");
    scan(window, label);
    window.tell(test::done(1, "Lot B26-031 is right"));
    CHECK(window.screen.value_of("Scan a bag") == "B26");
}

TEST_CASE("A wrong bag that was scanned is as loud as one that was typed") {
    WholeWindow window(Screen::mixer);
    scan(window, "]C0B26-099");
    window.tell(test::refused(1, {{"Bag", "STOP: lot B26-099 is not on this card", ""}}));
    CHECK(window.screen.says("✕ Bag: STOP: lot B26-099 is not on this card"));
}

TEST_CASE("On Mixer without a run the scan is handed on without one, for the reason to be told") {
    WholeWindow window(Screen::mixer);
    window.mixer.card.reset();
    scan(window, label);
    CHECK(window.last<app::ReadScan>().at == At::mixer);
    CHECK_FALSE(window.last<app::ReadScan>().run.is_known());
}

TEST_CASE("On any other screen the scan's lot is looked for") {
    for (const auto screen :
         {Screen::lots, Screen::readiness, Screen::plan, Screen::plant, Screen::settings}) {
        WholeWindow window(screen);
        scan(window, label);
        CHECK(window.last<app::ReadScan>().at == At::anywhere);
        CHECK(window.last<app::ReadScan>().scan == label);
    }
}

TEST_CASE("While a question stands open a scan changes nothing of what it asks about") {
    WholeWindow window(Screen::intake);
    window.screen.type("Lot number", "W26-149");
    window.screen.click("Take off the list");
    REQUIRE(window.screen.says("Take lot W26-149 off the delivery?"));
    scan(window, label);
    CHECK(window.last<app::ReadScan>().at == At::behind_a_question);
    window.screen.click("Keep it");
    scan(window, label);
    CHECK(window.last<app::ReadScan>().at == At::intake);
}

TEST_CASE("A scan that comes while a failure is told is read once that is put away") {
    WholeWindow window(Screen::intake);
    window.tell(test::failed(1));
    scan(window, label);
    CHECK(scans_in(window.did) == 0);
    CHECK(window.screens.has_scans());
    window.tell({});
    CHECK(scans_in(window.did) == 1);
    CHECK(window.last<app::ReadScan>().at == At::intake);
}

TEST_CASE("Scans that come together are read one a frame, so that each is answered") {
    WholeWindow window(Screen::intake);
    window.screen.settle();
    window.screens.scanned({"(10)A"});
    window.screens.scanned({"(10)B"});
    window.screen.frame();
    REQUIRE(scans_in(window.did) == 1);
    CHECK(window.last<app::ReadScan>().scan == "(10)A");
    window.screen.frame();
    REQUIRE(scans_in(window.did) == 2);
    CHECK(window.last<app::ReadScan>().scan == "(10)B");
}
