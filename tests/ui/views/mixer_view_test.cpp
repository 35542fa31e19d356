#include "app/acts/batches.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "support/catch.h"
#include "ui/views/mixer_opened.h"

using namespace mellowbin;
using test::is_whole_in_view;
using test::small_window;
using ui::Key;
using Opened = test::OpenedMixer;

TEST_CASE("With nothing to mix today the Mixer says how a card comes about") {
    app::MixerModel model;
    model.today = test::plan_today();
    Opened o{model};
    CHECK(o.screen.says("Nothing is to be mixed today"));
    CHECK(o.screen.says("adopt the plan"));
}

TEST_CASE("Without a card the runs of today stand there to be chosen") {
    auto model = test::a_batch();
    model.card.reset();
    Opened o{model};
    o.screen.click("Line 2, 1st: Bun, 9 batches");
    REQUIRE(o.all<app::OpenRun>().size() == 1);
    CHECK(o.all<app::OpenRun>()[0].run == RunId{16});
}

TEST_CASE(
    "The card tells lots as bags and loose kilograms, water, ice, oxidant with its caution, and the aims") {
    Opened o;
    CHECK(o.screen.says("3\u00a0bags + 23\u00a0kg"));
    CHECK(o.screen.says("52\u00a0kg"));
    CHECK(o.screen.value_of("Water") == "93.5");
    CHECK(o.screen.value_of("Water temperature") == "6.5");
    CHECK(o.screen.value_of("Ice") == "11.0");
    CHECK(o.screen.value_of("Ascorbic acid") == "3.0");
    CHECK(o.screen.says("exact 2.86 g"));
    CHECK(o.screen.says("Weigh the oxidant with gloves"));
    CHECK(o.screen.says("Flour dust can explode"));
    CHECK(o.screen.says("60 min in bulk"));
}

TEST_CASE("Water is the largest figure of the card") {
    Opened o;
    const auto height = [&](const char* figure) { return o.screen.find(figure).rect.height(); };
    CHECK(height("Water") > height("Water temperature") + 20);
    CHECK(height("Water temperature") > height("Ascorbic acid"));
}

TEST_CASE("The caution of the oxidant stands beside the oxidant, those of the flour beneath the flour") {
    Opened o;
    const auto& oxidant = o.screen.find("Ascorbic acid");
    const ui::Note* caution = nullptr;
    const ui::Note* dust = nullptr;
    for (const auto& note : o.screen.probe().notes()) {
        if (note.label.find("Weigh the oxidant") != std::string::npos)
            caution = &note;
        if (note.label.find("Flour dust") != std::string::npos)
            dust = &note;
    }
    REQUIRE(caution);
    REQUIRE(dust);
    CHECK(caution->rect.left == Approx(oxidant.rect.left).margin(30));
    CHECK(caution->rect.top >= oxidant.rect.bottom);
    CHECK(dust->rect.top > o.screen.find("Silo 1 · ready").rect.bottom);
    CHECK(dust->rect.left < o.screen.find("Water").rect.left);
}

TEST_CASE("What stands against the batch stands above the card") {
    auto model = test::a_batch();
    model.card->verdict = {app::CardVerdict::Ruling::do_not_mix,
                           "Do not mix",
                           {{"best_before_passed", true, "Lot B26-031 is past its best-before day",
                             "Quality staff extend the day with a reason", "a rule"}}};
    Opened o{model};
    CHECK(o.screen.find("✕ Do not mix").rect.bottom < o.screen.find("Water").rect.top);
    CHECK(o.screen.find("Lot B26-031 is past its best-before day").rect.bottom <
          o.screen.find("Water").rect.top);
}

TEST_CASE("A product without oxidant says that none goes in") {
    auto model = test::a_batch();
    model.card->oxidant.label.clear();
    Opened o{model};
    CHECK(o.screen.says("None"));
}

TEST_CASE("Where the flour needs no oxidant the card says so") {
    auto model = test::a_batch();
    model.card->oxidant = {"Ascorbic acid", 0, 0, "g"};
    model.card->oxidant.note = "none needed: the flour is mature enough";
    std::erase_if(model.card->cautions,
                  [](const auto& caution) { return caution.beside == app::CardCaution::Beside::oxidant; });
    Opened o{model};
    CHECK(o.screen.value_of("Ascorbic acid") == "0");
    CHECK(o.screen.says("none needed"));
}

TEST_CASE("A run that is all in has nothing to confirm") {
    auto model = test::a_batch();
    model.card->is_finished = true;
    Opened o{model};
    CHECK(o.screen.says("all 12 batches are in"));
    for (const auto& note : o.screen.probe().notes())
        CHECK(note.label.find("Confirm") == std::string::npos);
}

TEST_CASE("The next run comes by the button, by the key even while a bag is scanned, and from the list") {
    Opened o;
    CHECK(o.screen.is_focused("Scan a bag"));
    o.screen.press(Key::f8);
    o.screen.click("Next run");
    o.screen.press(Key::right);
    REQUIRE(o.all<app::OpenRun>().size() == 3);
    for (const auto& asked : o.all<app::OpenRun>())
        CHECK(asked.run == RunId{15});
    CHECK_FALSE(o.screen.offers("Previous run"));

    o.model.card->run = RunId{16};
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Next run"));
    o.screen.press(Key::f7);
    CHECK(o.all<app::OpenRun>().back().run == RunId{15});
    o.screen.click("Previous run");
    CHECK(o.all<app::OpenRun>().size() == 5);
}

TEST_CASE("Where there is no card every reason stands there, with what to do, and nothing can be confirmed") {
    Opened o{test::a_refused_card()};
    CHECK(o.screen.says("No card: do not mix this run"));
    CHECK(o.screen.says("is held since 04:02: awaiting retest"));
    CHECK(o.screen.says("Release it on Lots, or plan the run anew"));
    CHECK(o.screen.says("no limit for it is confirmed in Canada"));
    CHECK(o.screen.says("Confirm the row on Settings"));
    for (const auto& note : o.screen.probe().notes())
        CHECK(note.label.find("Confirm batch") == std::string::npos);
    CHECK_FALSE(o.screen.says("93.5"));
}

TEST_CASE("A run of another day is marked, so that nobody mixes it by mistake") {
    auto model = test::a_batch();
    model.card->day += Days{1};
    Opened o{model};
    CHECK(o.screen.says("not a run of today"));
}

TEST_CASE("Masses and temperatures stand in the units of the house") {
    Opened o{test::a_poured_batch()};
    CHECK(o.screen.says("Flour 330.7 lb"));
    CHECK(o.screen.says("3\u00a0bags + 50.7\u00a0lb"));
    CHECK(o.screen.says("114.6\u00a0lb"));
    CHECK_FALSE(o.screen.says("98 kg"));
    CHECK(o.screen.find("Water").unit == "lb");
    CHECK(o.screen.find("Ice").unit == "lb");
    CHECK(o.screen.find("Water temperature").unit == "°F");
    CHECK(o.screen.find("Dough temperature").unit == "°F");
}

TEST_CASE("The card says what the next batch is like, and from which one another lot goes in") {
    Opened o;
    CHECK(o.screen.says("Batch 4 is the same"));
    CHECK(o.screen.says("From batch 7 on: lot B26-052 in place of B26-044"));
    CHECK(o.screen.says("Water 92.0 kg, 93.5 now"));

    o.model.card->batch = 6;
    o.model.card->next_words = "Batch 7 is another";
    o.screen.settle();
    const auto* imminent = o.note_with("From the next batch, 7, on: lot B26-052");
    REQUIRE(imminent);
    CHECK(imminent->rect.bottom < o.screen.find("Water").rect.top);

    o.model.card->change.reset();
    o.model.card->next_words.clear();
    o.screen.settle();
    CHECK_FALSE(o.screen.says("Then"));
}

TEST_CASE("The levers are asked for while their page is looked at, of the run that is shown, and no longer") {
    Opened o;
    CHECK(o.all<app::ShowLevers>().empty());
    o.screen.click("Levers");
    REQUIRE(o.all<app::ShowLevers>().size() == 1);
    CHECK(o.all<app::ShowLevers>()[0].run == RunId{11});
    o.screen.settle();
    CHECK(o.all<app::ShowLevers>().size() == 1);

    o.model.card->run = RunId{16};
    o.screen.settle();
    REQUIRE(o.all<app::ShowLevers>().size() == 2);
    CHECK(o.all<app::ShowLevers>()[1].run == RunId{16});

    o.screen.click("Batch");
    REQUIRE(o.all<app::ShowLevers>().size() == 3);
    CHECK_FALSE(o.all<app::ShowLevers>()[2].run.has_value());
}

TEST_CASE("The pages are turned by the arrows as well, and F9 leads back to the scan") {
    Opened o;
    o.screen.click("Logged");
    CHECK(o.screen.is_focused("Page"));
    CHECK_FALSE(o.screen.offers("Confirm batch 3 of 12"));
    o.screen.press(Key::right);
    CHECK(o.screen.is_chosen("Levers"));
    CHECK(o.all<app::OpenRun>().empty());
    o.screen.press(Key::f9);
    CHECK(o.screen.is_chosen("Batch"));
    CHECK(o.screen.is_focused("Scan a bag"));
}

TEST_CASE("The acts of the mixer are 64 px high, so that a knuckle does") {
    Opened o{test::a_past_solution()};
    for (const auto* act :
         {"Page", "Scan a bag", "Confirm batch 3 of 12", "Something else went in", "What came of batch 2",
          "Next run", "Poured away", "New solution", "Checked by"}) {
        INFO(act);
        CHECK(o.screen.find(act).rect.height() >= 64);
    }
}

TEST_CASE("Lots, water and Confirm are in view without scrolling up to 125 % of text size") {
    for (float text : {1.0F, 1.25F}) {
        Opened o{test::a_batch(), small_window(text)};
        INFO("text size " << text);
        CHECK(is_whole_in_view(o.screen.find("Water")));
        CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
        CHECK(is_whole_in_view(o.screen.find("3\u00a0bags + 23\u00a0kg")));
        CHECK(is_whole_in_view(o.screen.find("52\u00a0kg")));
    }
}

TEST_CASE("At 200 % of text size Confirm is still in view and the rest can be scrolled to") {
    Opened o{test::a_batch(), small_window(2)};
    CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
    o.screen.click("Confirm batch 3 of 12");
    CHECK(o.all<app::ConfirmBatch>().size() == 1);
}

TEST_CASE("With a second person's field and words beside Confirm, lots, water and Confirm stay in view") {
    for (float text : {1.0F, 1.25F}) {
        Opened o{test::a_poured_batch(), small_window(text)};
        INFO("text size " << text);
        CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
        CHECK(is_whole_in_view(o.screen.find("Checked by")));
        CHECK(is_whole_in_view(o.screen.find("Reason")));
        CHECK(o.screen.says("answer first: say why it is mixed all the same"));
        if (text > 1) // then the lots are scrolled to
            continue;
        CHECK(is_whole_in_view(o.screen.find("Water")));
        CHECK(o.screen.says("3\u00a0bags + 50.7\u00a0lb"));
        CHECK(o.screen.says("114.6\u00a0lb"));
    }
    Opened o{test::a_poured_batch(), small_window(2)};
    CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
}
