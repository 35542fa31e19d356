#include "app/acts/batches.h"
#include "support/catch.h"
#include "ui/views/mixer_opened.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using ui::Key;
using Opened = test::OpenedMixer;

namespace {

constexpr const char* confirm = "Confirm batch 3 of 12";

} // namespace

TEST_CASE("A bag scanned is held against the card at once, and the field is empty for the next one") {
    Opened o;
    o.screen.type("B26-031"); // as a scanner does, with no press before
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ScanBag>().size() == 1);
    CHECK(o.all<app::ScanBag>()[0].run == RunId{11});
    CHECK(o.all<app::ScanBag>()[0].scan == "B26-031");

    o.model.card->lots[0].is_scanned = true;
    o.tell_done();
    CHECK(o.screen.value_of("Scan a bag").empty());
    CHECK(o.screen.says("B26-031 ✓ scanned"));
    o.screen.type("B26-044");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ScanBag>().size() == 2);
    CHECK(o.all<app::ScanBag>()[1].scan == "B26-044");
}

TEST_CASE("Coming to the Mixer from another screen, a bag can be scanned at once") {
    test::WholeWindow window(views::Screen::mixer);
    window.screen.press(Key::f4);
    window.screen.press(Key::f5);
    window.screen.type("B26-031");
    window.screen.press(Key::enter);
    CHECK(window.last<app::ScanBag>().scan == "B26-031");
}

TEST_CASE("A wrong bag is said loud and stays to be read, and the next scan takes its place") {
    Opened o;
    o.screen.type("B26-099");
    o.screen.press(Key::enter);
    o.tell_refused({{"Bag", "is of lot B26-099, which is not on this card", "Put it back"}});
    const auto* words = o.note_with("✕ Bag: is of lot B26-099, which is not on this card");
    REQUIRE(words);
    CHECK(words->rect.height() >= 31);
    CHECK(words->rect.bottom < o.screen.find("Water").rect.top);
    CHECK(o.screen.says("Put it back"));
    CHECK(o.screen.value_of("Scan a bag") == "B26-099");

    o.screen.type("B26-031");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ScanBag>().size() == 2);
    CHECK(o.all<app::ScanBag>()[1].scan == "B26-031");
    o.tell_done();
    CHECK_FALSE(o.screen.says("✕ Bag"));
}

TEST_CASE("What was wrong with a bag of one run is not said of another") {
    Opened o;
    o.screen.type("B26-099");
    o.screen.press(Key::enter);
    o.tell_refused({{"Bag", "is of another lot", ""}});
    o.model.card->run = RunId{16};
    o.screen.settle();
    CHECK_FALSE(o.screen.says("is of another lot"));
}

TEST_CASE("Where bags must be scanned, Confirm waits for each lot's") {
    auto model = test::a_poured_batch();
    model.card->needs_check = false;
    Opened o{model};
    CHECK_FALSE(o.screen.is_enabled(confirm));
    CHECK(o.screen.says("scan a bag of B26-044 first"));
    o.screen.click(confirm);
    CHECK(o.all<app::ConfirmBatch>().empty());
    o.model.card->lots[1].is_scanned = true;
    o.screen.settle();
    o.screen.click(confirm);
    CHECK(o.all<app::ConfirmBatch>().size() == 1);
}

TEST_CASE("A wrong bag is said loud over the form of what went in, too") {
    Opened o;
    o.screen.click("Something else went in");
    o.screen.type("Scan a bag", "B26-099");
    o.screen.press(Key::enter);
    o.tell_refused({{"Bag", "STOP: lot B26-099 is not on this card", ""}});
    CHECK(o.screen.says("STOP: lot B26-099 is not on this card"));
}
