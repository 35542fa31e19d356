#include "app/acts/read_scan.h"
#include "app/acts/scanner.h"
#include "app/acts/settings.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using exchange::Standing;
using test::WholeWindow;
using views::Screen;

namespace {

struct ScannerPage : WholeWindow {
    explicit ScannerPage(ui::FrameSetup setup = {}) : WholeWindow(Screen::settings, setup) {
        screens.settings.page = views::SettingsView::last_page; // its name may be in a list
        screen.settle();
    }
};

const ui::Note* symbol_of(const ScannerPage& page) {
    const auto& notes = page.screen.probe().notes();
    const auto at = std::find_if(notes.begin(), notes.end(), [](const ui::Note& note) {
        return note.kind == ui::Kind::figure && note.label == "Test symbol";
    });
    return at == notes.end() ? nullptr : &*at;
}

} // namespace

TEST_CASE("A symbol to be scanned is drawn as an area or as bars, whole modules wide, black on white") {
    ScannerPage page;
    for (const auto& symbol : exchange::test_symbols()) {
        const std::string name(exchange::name_of(symbol.kind));
        page.screen.click(name);
        const auto* at = symbol_of(page);
        REQUIRE(at);
        CHECK(at->seen.width() == at->rect.width()); // in view, whole
        CHECK(at->seen.height() == at->rect.height());
        const auto modules = static_cast<float>(symbol.symbol.columns + 2 * symbol.symbol.quiet);
        const float pixels = at->rect.width() / modules;
        CHECK(pixels == std::floor(pixels));
        CHECK(pixels >= 2);
        CHECK(page.screen.says(symbol.words));
    }
}

TEST_CASE("At twice the text size both symbols are still whole") {
    for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, std::pair{1600.0F, 1000.0F}}) {
        ScannerPage page({.width = width, .height = height, .text_size = 2});
        for (int symbol = 0; symbol < static_cast<int>(exchange::test_symbols().size()); ++symbol) {
            page.screens.settings.scanner.symbol = symbol;
            page.screen.settle();
            CHECK_FALSE(page.screen.says("too narrow"));
            const auto* drawn = symbol_of(page);
            REQUIRE(drawn);
            CHECK(drawn->seen.height() == drawn->rect.height());
        }
    }
}

TEST_CASE("A scan on this page is judged, with how it came, and opens no lot") {
    ScannerPage page;
    page.screens.scanned({"]d201", app::Scanned::Way::keys, app::Scanned::End::tab, 0.012});
    page.screen.settle();
    const auto& act = page.last<app::JudgeTestScan>();
    CHECK(act.scan.bytes == "]d201");
    CHECK(act.scan.end == app::Scanned::End::tab);
    CHECK(act.scan.seconds_a_key == 0.012);
    page.screen.click("Journal");
    page.screens.scanned({"]d201"});
    page.screen.settle();
    CHECK(page.last<app::ReadScan>().at == app::ReadScan::At::anywhere);
}

TEST_CASE("A scanner too slow to be told from a person is judged all the same, as that") {
    ScannerPage page;
    page.screen.type("]d201095");
    page.screen.press(ui::Key::enter);
    const auto& act = page.last<app::JudgeTestScan>();
    CHECK(act.scan.bytes == "]d201095");
    CHECK(act.scan.way == app::Scanned::Way::slow_keys);
    page.screen.type("x");
    page.screen.press(ui::Key::enter);
    CHECK(page.last<app::JudgeTestScan>().scan.bytes == "x"); // not behind what came before
}

TEST_CASE("What came of the scan is said a line each, and the separator that came can be set by a button") {
    ScannerPage page;
    CHECK(page.screen.says("Nothing was scanned yet."));
    auto& heard = page.settings.scanner.heard;
    heard.lines = {{"Separator", "arrives as \"~\"", Standing::wrong},
                   {"Letters", "small and capital ones arrive as they are", Standing::well}};
    heard.separator = "~";
    page.screen.settle();
    CHECK(page.screen.says("Separator: arrives as \"~\""));
    CHECK(page.screen.says("Letters: small and capital ones arrive as they are"));
    page.screen.click("Set ~ as the separator");
    CHECK(page.last<app::ChangeSetting>().key == "scanner_separator");
    CHECK(page.last<app::ChangeSetting>().value == "~");
    page.settings.scanner.separator = "~";
    page.screen.settle();
    CHECK_FALSE(page.screen.offers("Set ~ as the separator"));
    heard.separator = "";
    page.screen.settle();
    page.screen.click("Set the separator itself");
    CHECK(page.last<app::ChangeSetting>().value.empty());
}

TEST_CASE("The page says how the port stands, and leads to where it is set") {
    ScannerPage page;
    CHECK(page.screen.says("No port is set."));
    page.settings.scanner.port.path = "/dev/ttyACM0";
    page.settings.scanner.heard.port_words = "/dev/ttyACM0 was unplugged: plug the scanner in again";
    page.settings.scanner.heard.port_is_well = false;
    page.screen.settle();
    CHECK(page.screen.says("/dev/ttyACM0 was unplugged"));
    page.screen.click("Set the port");
    CHECK(page.screen.says("What this plant has chosen"));
}
