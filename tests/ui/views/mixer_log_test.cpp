#include "app/acts/batches.h"
#include "support/catch.h"
#include "ui/views/mixer_opened.h"

using namespace mellowbin;
using ui::Key;
using Opened = test::OpenedMixer;

namespace {

void open_log(Opened& o) { o.screen.click("Logged"); }

} // namespace

TEST_CASE("After a batch the card asks what came of the newest one that nobody has spoken of") {
    Opened o;
    o.screen.click("What came of batch 2");
    CHECK(o.screen.says("What came of batch 2?"));
    CHECK(o.screen.find("Dough temperature").unit == "°C");
    CHECK(o.screen.find("Stiff").rect.height() >= 64);
    o.screen.type("Dough temperature", "26.4");
    o.screen.type("pH", "5,4");
    o.screen.click("Slack");
    o.screen.type("Mixing", "8");
    o.screen.type("Fermentation", "60");
    o.screen.type("Note", "bowl was warm");
    o.screen.click("Log what came of it");
    REQUIRE(o.all<app::LogResult>().size() == 1);
    const auto asked = o.all<app::LogResult>()[0];
    CHECK(asked.batch == BatchId{23});
    CHECK(asked.result.dough_temperature == "26.4");
    CHECK(asked.result.ph == "5,4");
    CHECK(asked.result.feel == "slack");
    CHECK(asked.result.mixing_minutes == "8");
    CHECK(asked.result.fermentation_minutes == "60");
    CHECK(asked.result.note == "bowl was warm");

    o.model.card->logged[0].result_words = "26.4 °C, pH 5.4, slack, 8 min";
    ++o.model.batches_logged;
    o.tell_done();
    CHECK(o.screen.offers("Confirm batch 3 of 12"));
    CHECK_FALSE(o.screen.offers("What came of batch 2"));
    CHECK(o.screen.is_focused("Scan a bag"));
}

TEST_CASE("A countered batch is not asked about") {
    Opened o;
    o.model.card->logged[0].is_countered = true;
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("What came of batch 2"));
}

TEST_CASE("A run that is all in still asks what came of its last batch") {
    auto model = test::a_batch();
    model.card->is_finished = true;
    Opened o{model};
    CHECK(o.screen.offers("What came of batch 2"));
    CHECK_FALSE(o.screen.offers("Scan a bag"));
}

TEST_CASE("Refused results stand at their fields as typed") {
    Opened o;
    o.screen.click("What came of batch 2");
    o.screen.type("Dough temperature", "260");
    o.screen.type("pH", "14");
    o.screen.click("Stiff");
    o.screen.click("Log what came of it");
    o.tell_refused({{"Dough temperature", "260 was read; from 0 to 50 °C is expected", ""},
                    {"pH", "14 was read; from 3 to 9 is expected", ""},
                    {"Batch", "is countered", "Look at Logged"}});
    CHECK(o.screen.value_of("Dough temperature") == "260");
    CHECK(o.screen.value_of("pH") == "14");
    CHECK(o.screen.is_chosen("Stiff"));
    CHECK(o.screen.says("260 was read"));
    CHECK(o.screen.says("14 was read"));
    CHECK(o.screen.says("Batch: is countered. Look at Logged"));
    CHECK(o.screen.is_enabled("Log what came of it"));
}

TEST_CASE("What came of a batch is filled in by the keyboard alone; Escape closes it and loses nothing") {
    Opened o;
    o.screen.click("What came of batch 2");
    CHECK(o.screen.is_focused("Dough temperature"));
    o.screen.type("26");
    o.screen.press(Key::tab, ui::Mods::shift);
    CHECK(o.screen.is_focused("Feel"));
    o.screen.press(Key::right);
    CHECK(o.screen.is_chosen("Stiff"));
    o.screen.press(Key::right);
    CHECK(o.screen.is_chosen("Right"));
    o.screen.press(Key::escape);
    CHECK_FALSE(o.screen.offers("Log what came of it"));
    o.screen.click("What came of batch 2");
    CHECK(o.screen.value_of("Dough temperature") == "26");
    CHECK(o.screen.is_chosen("Right"));
    o.screen.click("Dough temperature");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::LogResult>().size() == 1);
    CHECK(o.all<app::LogResult>()[0].result.feel == "right");
}

TEST_CASE(
    "The batches stand on Logged newest first, with what went in and came of it, countered ones by word") {
    Opened o;
    open_log(o);
    CHECK(o.screen.says("98 kg B26-031, 520 kg B26-044"));
    CHECK(o.screen.says("04:52, Ines"));
    CHECK(o.screen.says("Nobody has said yet what came of it."));
    CHECK(o.screen.says("Came out: 26.4 °C, pH 5.4, right, 8 min"));
    CHECK(o.screen.says("countered"));
    CHECK(o.screen.find("23/It was not so").rect.top < o.screen.find("21/It was not so").rect.top);
    CHECK_FALSE(o.screen.offers("22/It was not so"));
    CHECK_FALSE(o.screen.offers("22/What came of it"));
}

TEST_CASE("With no batch in, Logged says how one comes there") {
    Opened o;
    o.model.card->logged.clear();
    open_log(o);
    CHECK(o.screen.says("No batch of this run is in yet"));
}

TEST_CASE("On Logged what came of any batch can be said again, begun with what was said") {
    Opened o;
    open_log(o);
    o.screen.click("21/What came of it");
    CHECK(o.screen.says("What came of batch 1?"));
    CHECK(o.screen.value_of("Dough temperature") == "26.4");
    CHECK(o.screen.value_of("pH") == "5.4");
    CHECK(o.screen.is_chosen("Right"));
    o.screen.type("Fermentation", "55");
    o.screen.click("Log what came of it");
    REQUIRE(o.all<app::LogResult>().size() == 1);
    CHECK(o.all<app::LogResult>()[0].batch == BatchId{21});
    CHECK(o.all<app::LogResult>()[0].result.dough_temperature == "26.4");
    CHECK(o.all<app::LogResult>()[0].result.fermentation_minutes == "55");
    ++o.model.batches_logged;
    o.tell_done();
    CHECK(o.screen.offers("21/What came of it"));
}

TEST_CASE("A batch that was not so is countered with a reason, and the reason stays when it is refused") {
    Opened o;
    open_log(o);
    o.screen.click("23/It was not so");
    CHECK(o.screen.says("Batch 2: 98 kg B26-031, 52 kg B26-044"));
    CHECK(o.screen.is_focused("Reason"));
    o.screen.type("?");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::CounterBatch>().size() == 1);
    CHECK(o.all<app::CounterBatch>()[0].batch == BatchId{23});
    CHECK(o.all<app::CounterBatch>()[0].reason == "?");
    o.tell_refused({{"Reason", "\"?\" was read; a few words are expected", ""},
                    {"Batch", "is not the newest", "Counter the later one first"}});
    CHECK(o.screen.value_of("Reason") == "?");
    CHECK(o.screen.says("a few words are expected"));
    CHECK(o.screen.says("Batch: is not the newest"));
    o.screen.type("Reason", "the bowl was emptied");
    o.screen.click("Was this batch not so?/It was not so");
    CHECK(o.all<app::CounterBatch>().back().reason == "the bowl was emptied");
    o.tell_done();
    CHECK_FALSE(o.screen.offers("Reason"));
}

TEST_CASE("Escape keeps the batch") {
    Opened o;
    open_log(o);
    o.screen.click("21/It was not so");
    o.screen.press(Key::escape);
    CHECK_FALSE(o.screen.offers("Reason"));
    CHECK(o.all<app::CounterBatch>().empty());
}
