#include "app/acts/batches.h"
#include "app/acts/looking.h"
#include "app/acts/read_scan.h"
#include "app/acts/scans.h"
#include "support/catch.h"
#include "ui/views/mixer_opened.h"
#include "ui/views/whole_window.h"

#include <functional>

using namespace mellowbin;
using ui::Key;
using Opened = test::OpenedMixer;

namespace {

constexpr const char* confirm = "Confirm batch 3 of 12";

/// On words that are nothing to press.
void press_on_empty_ground(Opened& o, std::string_view words = "Water") {
    const auto rect = o.screen.find(words).rect;
    o.screen.point_at(rect.left + 2, rect.top + 2);
    o.screen.ui().pointer_pressed();
    o.screen.ui().pointer_released();
    o.screen.settle();
}

} // namespace

TEST_CASE("A bag scanned is held against the card at once, and the field is empty for the next one") {
    Opened o;
    o.screen.type("B26-031"); // as a scanner does, with no press before
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ReadScan>().size() == 1);
    CHECK(o.all<app::ReadScan>()[0].run == RunId{11});
    CHECK(o.all<app::ReadScan>()[0].scan == "B26-031");

    o.model.card->lots[0].is_scanned = true;
    o.tell_done();
    CHECK(o.screen.value_of("Scan a bag").empty());
    CHECK(o.screen.says("scanned"));
    o.screen.type("B26-044");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ReadScan>().size() == 2);
    CHECK(o.all<app::ReadScan>()[1].scan == "B26-044");
}

TEST_CASE("Coming to the Mixer from another screen, a bag can be scanned at once") {
    test::WholeWindow window(views::Screen::mixer);
    window.screen.press(Key::f4);
    window.screen.press(Key::f5);
    window.screen.type("B26-031");
    window.screen.press(Key::enter);
    CHECK(window.last<app::ReadScan>().scan == "B26-031");
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
    REQUIRE(o.all<app::ReadScan>().size() == 2);
    CHECK(o.all<app::ReadScan>()[1].scan == "B26-031");
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
    CHECK(o.screen.says("not scanned"));
    o.screen.click(confirm);
    CHECK(o.all<app::ConfirmBatch>().empty());
    test::let_mix(*o.model.card);
    o.screen.settle();
    CHECK_FALSE(o.screen.says("not scanned"));
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

TEST_CASE(
    "A scan reaches the check wherever the last press was: after Esc, on empty ground, on a button, a page") {
    const auto scans_after = [](const std::function<void(Opened&)>& first) {
        Opened o;
        first(o);
        o.screen.type("B26-031");
        o.screen.press(Key::enter);
        const auto scans = o.all<app::ReadScan>();
        INFO("focus: " << o.screen.focused());
        REQUIRE(scans.size() == 1);
        CHECK(scans[0].scan == "B26-031");
        CHECK(o.all<app::ConfirmBatch>().empty()); // its Enter presses nothing
        o.tell_done();
        o.screen.type("B26-044"); // and the next one after it
        o.screen.press(Key::enter);
        REQUIRE(o.all<app::ReadScan>().size() == 2);
        CHECK(o.all<app::ReadScan>()[1].scan == "B26-044");
    };
    scans_after([](Opened& o) { o.screen.press(Key::escape); });
    scans_after([](Opened& o) { press_on_empty_ground(o); });
    scans_after([](Opened& o) { o.screen.press(Key::tab); }); // a button or a choice has the focus
    scans_after([](Opened& o) {
        for (int i = 0; i < 4; ++i)
            o.screen.press(Key::tab);
    });
    scans_after([](Opened& o) {
        o.screen.click("Something else went in");
        o.screen.click("Close form");
    });
}

TEST_CASE("A scan that comes on another page of the Mixer, or over a form, leads back to the batch and is "
          "checked") {
    for (const char* page : {"Why", "Logged", "Remedies", "Keeping"}) {
        INFO(page);
        Opened o;
        o.screen.click(page);
        o.screen.press(Key::escape);
        o.screen.type("B26-031");
        o.screen.press(Key::enter);
        REQUIRE(o.all<app::ReadScan>().size() == 1);
        CHECK(o.all<app::ReadScan>()[0].scan == "B26-031");
        CHECK(o.screen.offers(confirm));
    }
    Opened o;
    o.screen.click("What came of batch 2");
    o.screen.type("pH", "5.4");
    press_on_empty_ground(o, "What came of batch 2?");
    o.screen.type("B26-031");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ReadScan>().size() == 1);
    o.tell_done();
    o.screen.click("What came of batch 2");
    CHECK(o.screen.value_of("pH") == "5.4");
}

TEST_CASE("A scan with a blank in it does not press the button that has the focus") {
    Opened o;
    while (o.screen.focused() != confirm)
        o.screen.press(Key::tab);
    o.screen.type("]C110W24");
    o.screen.press(Key::space);
    o.screen.type(" 118");
    o.screen.press(Key::enter);
    CHECK(o.all<app::ConfirmBatch>().empty());
    REQUIRE(o.all<app::ReadScan>().size() == 1);
    CHECK(o.all<app::ReadScan>()[0].scan == "]C110W24 118");
}

TEST_CASE("What was said of the bag before goes at the first character of the next one") {
    Opened o;
    o.screen.type("B26-099");
    o.screen.press(Key::enter);
    o.tell_refused({{"Bag", "STOP: lot B26-099 is not on this card", ""}});
    CHECK(o.screen.says("STOP: lot B26-099"));
    o.asked.clear();
    o.screen.type("B");
    CHECK_FALSE(o.screen.says("STOP: lot B26-099"));
    CHECK(o.all<app::PutAwayNotice>().size() == 1); // and the line on top with it
}

TEST_CASE("So does the line that the bag before was right") {
    Opened after_a_right_one;
    after_a_right_one.screen.type("B26-031");
    after_a_right_one.screen.press(Key::enter);
    after_a_right_one.tell_done();
    after_a_right_one.screen.press(Key::escape);
    after_a_right_one.screen.type("B");
    CHECK(after_a_right_one.all<app::PutAwayNotice>().size() == 1);
}

TEST_CASE("Quality clears a wrong bag by name and reason; what is typed stays when it is refused") {
    auto model = test::a_batch();
    model.card->has_wrong_bag = true;
    model.card->verdict = {
        app::CardVerdict::Ruling::do_not_mix,
        "Do not mix",
        {{"wrong_bag", true, "Lot B26-099 was scanned", "Scan a bag of each lot", "a rule"}}};
    Opened o{model};
    CHECK_FALSE(o.screen.is_enabled(confirm));
    o.screen.click("Quality clears it");
    o.screen.type("Cleared by", "Ines");
    o.screen.click("Quality clears it");
    REQUIRE(o.all<app::ClearBags>().size() == 1);
    CHECK(o.all<app::ClearBags>()[0].by == "Ines");
    o.tell_refused({{"Reason", "is empty", "Say what was looked at"}});
    CHECK(o.screen.value_of("Cleared by") == "Ines");
    o.screen.type("Reason", "never opened");
    o.screen.click("Quality clears it");
    CHECK(o.all<app::ClearBags>()[1].reason == "never opened");
    o.tell_done();
    CHECK_FALSE(o.screen.offers("Cleared by"));
}
