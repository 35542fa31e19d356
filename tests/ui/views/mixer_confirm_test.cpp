#include "app/acts/batches.h"
#include "app/acts/read_scan.h"
#include "app/models/mixer.h"
#include "support/catch.h"
#include "ui/views/mixer_opened.h"

using namespace mellowbin;
using ui::Key;
using Opened = test::OpenedMixer;

namespace {

constexpr const char* confirm = "Confirm batch 3 of 12";

/// Scanned and to be checked by nobody, so that only one thing is asked at a time.
app::MixerModel a_checked_batch() {
    auto model = test::a_poured_batch();
    model.card->needs_scan = false;
    test::let_mix(*model.card);
    return model;
}

/// What the application does once a batch is written.
void write_batch(Opened& o) {
    ++o.model.card->batch;
    ++o.model.batches_logged;
    o.tell_done();
}

const app::BatchDraft& last_draft(const Opened& o) { return o.asked.back().as<app::ConfirmBatch>()->went_in; }

} // namespace

TEST_CASE("A batch is confirmed by one press, and a second press before the answer confirms nothing") {
    Opened o;
    o.screen.click(confirm);
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(o.all<app::ConfirmBatch>()[0].run == RunId{11});
    CHECK(o.all<app::ConfirmBatch>()[0].batch == 3);
    o.screen.click(confirm);
    CHECK(o.all<app::ConfirmBatch>().size() == 1);

    write_batch(o);
    o.screen.click("Confirm batch 4 of 12");
    REQUIRE(o.all<app::ConfirmBatch>().size() == 2);
    CHECK(o.all<app::ConfirmBatch>()[1].batch == 4);
}

TEST_CASE("A batch whose confirmation was refused can be confirmed again, and the card says why") {
    Opened o;
    o.screen.click(confirm);
    o.tell_refused({{"B26-031", "only 40 kg are there", "Count the place"}});
    CHECK(o.screen.is_enabled(confirm));
    CHECK(o.screen.says("B26-031: only 40 kg are there. Count the place"));
}

TEST_CASE("The Enter of a scan after Confirm was pressed confirms nothing more") {
    Opened o;
    o.screen.click(confirm);
    write_batch(o);
    CHECK(o.screen.is_focused("Scan a bag"));
    o.screen.type("B26-031");
    o.screen.press(Key::enter);
    CHECK(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(o.all<app::ReadScan>().size() == 1);
}

TEST_CASE("Nor does the Enter of a scan confirm again what was refused") {
    Opened o;
    o.screen.click(confirm);
    o.tell_refused({{"Water", "cannot be told", ""}});
    o.screen.type("B26-031");
    o.screen.press(Key::enter);
    CHECK(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(o.all<app::ReadScan>().size() == 1);
}

TEST_CASE("Where a second person checks the oxidant, Confirm waits for the name and sends it") {
    Opened o{a_checked_batch()};
    CHECK_FALSE(o.screen.is_enabled(confirm));
    CHECK(o.screen.says("a second person checks the oxidant first"));
    o.screen.type("Checked by", "Tomas");
    o.screen.press(Key::enter); // a badge's scan ends so: it confirms nothing by itself
    CHECK(o.all<app::ConfirmBatch>().empty());
    CHECK(o.screen.is_focused(confirm));
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(last_draft(o).checked_by == "Tomas");

    o.tell_refused({{"Checked by", "Tomas mixes; another person is expected", "Ask somebody else"}});
    CHECK(o.screen.value_of("Checked by") == "Tomas");
    CHECK(o.screen.says("Tomas mixes; another person is expected"));
    o.screen.type("Checked by", "Ines");
    o.screen.click(confirm);
    write_batch(o);
    CHECK(o.screen.value_of("Checked by").empty()); // the next batch is checked anew
    CHECK_FALSE(o.screen.is_enabled("Confirm batch 4 of 12"));
}

TEST_CASE("Without oxidant nobody has to check it") {
    auto model = a_checked_batch();
    model.card->oxidant.value = 0;
    Opened o{model};
    CHECK_FALSE(o.screen.offers("Checked by"));
    o.screen.click(confirm);
    CHECK(o.all<app::ConfirmBatch>().size() == 1);
}

TEST_CASE("What went in otherwise is typed into a field each, and only what was typed is sent") {
    Opened o;
    o.screen.click("Something else went in");
    CHECK(o.screen.is_focused("Lot B26-031"));
    CHECK(o.screen.find("Lot B26-031").unit == "kg");
    o.screen.type("Lot B26-044", "50");
    o.screen.type("Water", "94");
    o.screen.type("Water temperature", "7");
    o.screen.type("Ice", "10,5");
    o.screen.type("Oxidant", "2.9");
    o.screen.click("Confirm what went in");
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    const auto asked = o.all<app::ConfirmBatch>()[0];
    CHECK(asked.run == RunId{11});
    CHECK(asked.batch == 3);
    REQUIRE(asked.went_in.flour.size() == 1);
    CHECK(asked.went_in.flour[0].lot == LotId{4});
    CHECK(asked.went_in.flour[0].mass == "50");
    CHECK(asked.went_in.water == "94");
    CHECK(asked.went_in.water_temperature == "7");
    CHECK(asked.went_in.ice == "10,5");
    CHECK(asked.went_in.oxidant == "2.9");
    CHECK(asked.went_in.checked_by.empty());
    CHECK_FALSE(o.screen.is_enabled("Confirm what went in"));
}

TEST_CASE("A lot that is not on the card is named by a scan or by typing, with its mass") {
    Opened o;
    o.screen.click("Something else went in");
    CHECK_FALSE(o.screen.offers("Its mass"));
    o.screen.type("Another lot", "B26-060");
    o.screen.press(Key::enter); // as a scanner ends
    CHECK(o.all<app::ConfirmBatch>().empty());
    CHECK(o.screen.is_focused("Its mass"));
    o.screen.type("12,5");
    o.screen.type("Lot B26-031", "85");
    o.screen.click("Confirm what went in");
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    const auto& flour = last_draft(o).flour;
    REQUIRE(flour.size() == 2);
    const auto& other = flour[0].lot.is_known() ? flour[1] : flour[0];
    CHECK_FALSE(other.lot.is_known());
    CHECK(other.code == "B26-060");
    CHECK(other.mass == "12,5");
    o.tell_refused({{"Do not mix", "Lot B26-060 is held", "Quality staff lift it"},
                    {"Another lot", "is no lot in stock", ""}});
    CHECK(o.screen.value_of("Another lot") == "B26-060");
    CHECK(o.screen.says("Lot B26-060 is held"));
    CHECK(o.screen.says("is no lot in stock"));
}

TEST_CASE("What went in is typed by the keyboard alone, and Enter confirms it") {
    Opened o;
    o.screen.click("Something else went in");
    o.screen.press(Key::tab);
    CHECK(o.screen.is_focused("Lot B26-044"));
    o.screen.type("50");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(last_draft(o).flour.at(0).mass == "50");
}

TEST_CASE(
    "A refusal of what went in stands at its field, nothing typed is lost, and once written it is empty") {
    Opened o;
    o.screen.click("Something else went in");
    o.screen.type("Lot B26-044", "x");
    o.screen.type("Water", "9400");
    o.screen.click("Confirm what went in");
    o.tell_refused({{"Lot B26-044", "\"x\" was read; a number is expected", ""},
                    {"Water", "9400 kg was read; from 0 to 300 is expected", ""},
                    {"Batch", "3 is in already", "Look at the card"}});
    CHECK(o.screen.value_of("Lot B26-044") == "x");
    CHECK(o.screen.value_of("Water") == "9400");
    const auto* words = o.note_with("\"x\" was read");
    REQUIRE(words);
    CHECK(words->rect.left == Approx(o.screen.find("Lot B26-044").rect.left).margin(30));
    CHECK(o.screen.says("9400 kg was read"));
    CHECK(o.screen.says("Batch: 3 is in already. Look at the card"));

    o.screen.type("Lot B26-044", "50");
    o.screen.type("Water", "94");
    o.screen.click("Confirm what went in");
    write_batch(o);
    CHECK_FALSE(o.screen.offers("Confirm what went in"));
    o.screen.click("Something else went in");
    CHECK(o.screen.value_of("Lot B26-044").empty());
    CHECK(o.screen.value_of("Water").empty());
    CHECK_FALSE(o.screen.says("was read"));
}

TEST_CASE("Escape closes the form of what went in, and what was typed stands there again") {
    Opened o;
    o.screen.click("Something else went in");
    o.screen.type("Water", "94");
    o.screen.press(Key::escape);
    CHECK(o.screen.value_of("Water") == "93.5");
    CHECK(o.screen.is_focused("Scan a bag"));
    CHECK(o.screen.says("Something else was typed for this batch; Confirm writes what the card says."));
    o.screen.click("Something else went in");
    CHECK(o.screen.value_of("Water") == "94");
    o.screen.click("Close form");
    o.screen.click(confirm);
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(last_draft(o).water.empty());
}

TEST_CASE("What was typed for one run's batch is not another's, and comes back with it") {
    Opened o;
    o.screen.click("Something else went in");
    o.screen.type("Water", "94");
    o.model.card->run = RunId{16};
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Confirm what went in"));
    o.screen.click("Something else went in");
    CHECK(o.screen.value_of("Water").empty());
    o.screen.click("Close form");
    o.model.card->run = RunId{11};
    o.screen.settle();
    o.screen.click("Something else went in");
    CHECK(o.screen.value_of("Water") == "94");
}

TEST_CASE("In the form, too, the oxidant is checked by a second person, unless none went in") {
    Opened o{a_checked_batch()};
    o.screen.click("Something else went in");
    CHECK(o.screen.find("Oxidant").unit == "mL");
    CHECK_FALSE(o.screen.is_enabled("Confirm what went in"));
    CHECK(o.screen.says("a second person checks the oxidant first"));
    o.screen.type("Oxidant", "0");
    CHECK(o.screen.is_enabled("Confirm what went in"));
    CHECK_FALSE(o.screen.offers("Checked by"));
    o.screen.type("Oxidant", "300");
    o.screen.type("Checked by", "Tomas");
    o.screen.click("Confirm what went in");
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(last_draft(o).checked_by == "Tomas");
    CHECK(last_draft(o).oxidant == "300");
}

TEST_CASE("The form of what went in waits for the scans as well, and bags can be scanned beside it") {
    auto model = test::a_poured_batch();
    model.card->needs_check = false;
    Opened o{model};
    o.screen.click("Something else went in");
    CHECK_FALSE(o.screen.is_enabled("Confirm what went in"));
    CHECK(o.screen.says("answer first: say why it is mixed all the same"));
    o.screen.type("Water", "205");
    o.screen.type("Scan a bag", "B26-044");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ReadScan>().size() == 1);
    CHECK(o.all<app::ConfirmBatch>().empty());
    test::let_mix(*o.model.card);
    o.tell_done();
    CHECK(o.screen.value_of("Water") == "205");
    CHECK(o.screen.is_enabled("Confirm what went in"));
}

TEST_CASE("Confirm waits for the answer where the card asks for one, and sends it with the batch") {
    auto model = test::a_poured_batch();
    model.card->needs_check = false;
    Opened o{model};
    CHECK(o.screen.says("ANSWER FIRST"));
    CHECK(o.screen.says("1 of 2 scanned: no bag of lot B26-044 yet"));
    CHECK_FALSE(o.screen.is_enabled(confirm));
    o.screen.type("Reason", "   ");
    CHECK_FALSE(o.screen.is_enabled(confirm));
    o.screen.type("Reason", "label torn");
    o.screen.press(Key::enter); // ends the answer, and confirms nothing
    CHECK(o.all<app::ConfirmBatch>().empty());
    o.screen.click(confirm);
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(last_draft(o).answer == "label torn");
    o.tell_refused({{"Reason", "is empty. Lot B26-031 is past its best", "Say why"}});
    CHECK(o.screen.says("Lot B26-031 is past its best"));
    CHECK(o.screen.value_of("Reason") == "label torn");
    o.screen.click(confirm);
    write_batch(o);
    CHECK(o.screen.value_of("Reason").empty()); // the next batch is answered anew
}

TEST_CASE(
    "A stop cannot be pressed away: Confirm is blocked on the card and in the form, whatever is typed") {
    auto model = test::a_poured_batch();
    model.card->needs_check = false;
    model.card->verdict = {app::CardVerdict::Ruling::do_not_mix,
                           "Do not mix",
                           {{"moisture_too_high", true, "Lot B26-031 holds 15.8 % of moisture",
                             "Quality staff hold the lot and test it again", "Codex Standard 152-1985"}}};
    for (auto& lot : model.card->lots)
        lot.is_withheld = true;
    Opened o{model};
    CHECK(o.screen.says("DO NOT MIX"));
    for (const auto* lot : {"B26-031", "B26-044"}) // none of it is read as if it were to be weighed
        CHECK(o.screen.value_of(lot) == "do not weigh");
    CHECK(o.screen.says("Lot B26-031 holds 15.8 % of moisture"));
    CHECK(o.screen.says("Quality staff hold the lot and test it again"));
    CHECK_FALSE(o.screen.offers("Reason"));
    CHECK_FALSE(o.screen.is_enabled(confirm));
    o.screen.click(confirm);
    o.screen.click("Something else went in");
    o.screen.type("Water", "205");
    CHECK_FALSE(o.screen.is_enabled("Confirm what went in"));
    o.screen.click("Confirm what went in");
    CHECK(o.all<app::ConfirmBatch>().empty());
}

TEST_CASE("What was typed too far from the card asks for a reason in the form, and nothing typed is lost") {
    Opened o{a_checked_batch()};
    o.screen.click("Something else went in");
    CHECK_FALSE(o.screen.offers("Reason"));
    o.screen.type("Water", "120");
    o.screen.type("Checked by", "Tomas");
    o.screen.click("Confirm what went in");
    o.tell_refused(
        {{"Reason", "is empty. Water: 120.0 lb was read, the card says 206.0 lb", "Check the figure"}});
    CHECK(o.screen.value_of("Water") == "120");
    o.screen.type("Reason", "the meter stuck");
    o.screen.click("Confirm what went in");
    CHECK(last_draft(o).answer == "the meter stuck");
    CHECK(last_draft(o).water == "120");
}
