#include "app/acts/batches.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/print_papers.h"
#include "app/acts/read_scan.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "support/catch.h"
#include "ui/views/mixer_opened.h"
#include "ui/views/whole_window.h"

#include <fmt/format.h>

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
    CHECK(o.screen.value_of("B26-031") == "3 bags + 23 kg");
    CHECK(o.screen.value_of("B26-044") == "52");
    CHECK(o.screen.value_of("Water") == "93.5");
    CHECK(o.screen.value_of("Water temperature") == "6.5");
    CHECK(o.screen.value_of("Ice") == "11.0");
    CHECK(o.screen.value_of("Ascorbic acid") == "3.0");
    CHECK(o.screen.value_of("Salt") == "2.7");
    CHECK(o.screen.value_of("Mix") == "10 min");
    CHECK(o.screen.value_of("Bulk") == "60 min in bulk, then 55 min proof at 36 °C");
    o.screen.turn_wheel("Mix", -20);
    CHECK(o.screen.says("Flour dust can explode"));
    CHECK_FALSE(o.screen.says("exact 2.86 g"));
    o.screen.click("Why");
    CHECK(o.screen.says("exact 2.86 g"));
    CHECK(o.screen.says("exact 93.42 kg"));
}

TEST_CASE("A dough that ferments longer for strength says so beneath its minutes") {
    auto model = test::a_batch();
    model.card->fermentation = "70 min";
    model.card->fermentation_why = "45 and 25 longer for strength";
    Opened o{model};
    CHECK(o.screen.value_of("Bulk") == "70 min");
    CHECK(o.screen.says("45 and 25 longer for strength"));
}

TEST_CASE("Water is the largest figure of the card") {
    Opened o;
    const auto height = [&](const char* figure) { return o.screen.find(figure).rect.height(); };
    CHECK(height("Water") > height("B26-031") + 20);
    CHECK(height("B26-031") > height("Ascorbic acid"));
}

TEST_CASE("What goes in stands in the order of weighing, what to beware of beside it and in ink") {
    Opened o;
    float before = 0;
    for (const auto* row : {"B26-031", "B26-044", "Water", "Ice", "Ascorbic acid", "Salt", "Yeast"}) {
        INFO(row);
        CHECK(o.screen.find(row).rect.top > before);
        before = o.screen.find(row).rect.top;
    }
    o.screen.turn_wheel("Mix", -20);
    const auto* caution = o.note_with("Weigh the oxidant");
    REQUIRE(caution);
    CHECK(caution->rect.left > o.screen.find("Water").rect.right);
    CHECK(caution->label.find("▲") == std::string::npos);
}

TEST_CASE("What stands against the batch stands above the card") {
    auto model = test::a_batch();
    model.card->verdict = {app::CardVerdict::Ruling::do_not_mix,
                           "Do not mix",
                           {{"best_before_passed", true, "Lot B26-031 is past its best-before day",
                             "Quality staff extend the day with a reason", "a rule"}}};
    Opened o{model};
    CHECK(o.screen.find("DO NOT MIX").rect.bottom < o.screen.find("Water").rect.top);
    CHECK(o.screen.find("Lot B26-031 is past its best-before day").rect.bottom <
          o.screen.find("Water").rect.top);
}

TEST_CASE("A product without oxidant says that none goes in") {
    auto model = test::a_batch();
    model.card->oxidant.label.clear();
    Opened o{model};
    CHECK(o.screen.value_of("Oxidant") == "none");
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

TEST_CASE("The card is printed from the page that says why, and one that cannot be is not") {
    Opened o;
    o.screen.click("Why");
    o.screen.click("Print card");
    REQUIRE(o.all<app::PrintCard>().size() == 1);
    CHECK(o.all<app::PrintCard>().front().run == o.model.card->run);
    o.model.card->refusals = {{"Flour", "is not known", "Plan the run"}};
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Print card"));
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
    CHECK(o.screen.value_of("B26-031") == "3 bags + 50.7 lb");
    CHECK(o.screen.value_of("B26-044") == "114.6");
    CHECK_FALSE(o.screen.says("98 kg"));
    CHECK(o.screen.find("Water").unit == "lb");
    CHECK(o.screen.find("Ice").unit == "lb");
    CHECK(o.screen.find("Water temperature").unit == "°F");
    CHECK(o.screen.find("Dough").unit == "°F");
    o.screen.click("Why");
    CHECK(o.screen.says("Flour 330.7 lb"));
}

TEST_CASE("The card says what the next batch is like, and from which one another lot goes in") {
    Opened o;
    o.screen.turn_wheel("Mix", -3);
    CHECK(o.screen.says("Batch 4 is the same"));
    CHECK(o.screen.says("From batch 7 on: lot B26-052 in place of B26-044"));
    CHECK(o.screen.says("Water 92.0 kg, 93.5 now"));

    o.model.card->batch = 6;
    o.model.card->next_words = "Batch 7 is another";
    o.screen.settle();
    o.screen.turn_wheel("Mix", 20);
    const auto* imminent = o.note_with("From the next batch, 7, on: lot B26-052");
    REQUIRE(imminent);
    CHECK(is_whole_in_view(*imminent));

    o.model.card->change.reset();
    o.model.card->next_words.clear();
    o.screen.settle();
    CHECK_FALSE(o.screen.says("Batch 7 is another"));
}

TEST_CASE("The levers are asked for while their page is looked at, of the run that is shown, and no longer") {
    Opened o;
    CHECK(o.all<app::ShowLevers>().empty());
    o.screen.click("Remedies");
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
    CHECK(o.screen.is_chosen("Remedies"));
    CHECK(o.all<app::OpenRun>().empty());
    o.screen.press(Key::f9);
    CHECK(o.screen.is_chosen("Batch"));
    CHECK(o.screen.is_focused("Scan a bag"));
}

TEST_CASE("The acts of the mixer are 64 px high, so that a knuckle does") {
    Opened o{test::a_past_solution()};
    for (const auto* act : {"Confirm batch 3 of 12", "Something else went in", "What came of batch 2",
                            "Next run", "Poured away", "New solution", "Checked by"}) {
        INFO(act);
        CHECK(o.screen.find(act).rect.height() >= 64);
    }
}

TEST_CASE("Lots, water and Confirm are in view without scrolling, however large the text") {
    for (float text : {1.0F, 1.25F, 2.0F}) {
        Opened o{test::a_batch(), small_window(text)};
        INFO("text size " << text);
        CHECK(is_whole_in_view(o.screen.find("Water")));
        CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
        CHECK(is_whole_in_view(o.screen.find("B26-031")));
        CHECK(is_whole_in_view(o.screen.find("B26-044")));
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
        CHECK(is_whole_in_view(o.screen.find("Water")));
        CHECK(is_whole_in_view(o.screen.find("B26-044")));
    }
    Opened o{test::a_poured_batch(), small_window(2)};
    CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
}

TEST_CASE(
    "Four lots, water, ice, oxidant, salt and yeast stand in a window of 1280 x 720 without scrolling") {
    test::WholeWindow window(views::Screen::mixer);
    window.mixer = test::a_batch();
    auto& lots = window.mixer.card->lots;
    lots.push_back({LotId{7}, "SW-24081", 66.7, 2, 16.7, "Bay 1", "ready"});
    lots.push_back({LotId{8}, "OF-1004", 58.3, 2, 8.3, "Warm bay", "ready"});
    for (const bool is_bowl : {false, true}) {
        window.screens.mixer.is_bowl = is_bowl;
        window.screen.settle();
        INFO((is_bowl ? "bowl" : "beside the rail"));
        for (const auto* row : {"B26-031", "OF-1004", "Water", "Ice", "Ascorbic acid", "Salt", "Yeast",
                                "Confirm batch 3 of 12"})
            CHECK(is_whole_in_view(window.screen.find(row)));
    }
}

TEST_CASE("In the bowl's mode rail and top line go; F11, Esc and its button bring them back") {
    test::WholeWindow window(views::Screen::mixer);
    window.mixer = test::a_batch();
    window.screen.settle();
    const float before = window.screen.find("Water").rect.width();
    window.screen.press(Key::f11);
    CHECK_FALSE(window.screen.offers("Readiness"));
    CHECK_FALSE(window.screen.offers("Search"));
    CHECK(window.screen.find("Water").rect.width() > before + 80);
    CHECK(window.screen.offers("Run"));
    window.screen.type("B26-031"); // a scan comes as ever
    window.screen.press(Key::enter);
    CHECK(window.last<app::ReadScan>().scan == "B26-031");
    window.screen.press(Key::f11);
    CHECK(window.screen.offers("Readiness"));
    window.screen.press(Key::f11);
    window.screen.click("Bowl off");
    CHECK(window.screen.offers("Readiness"));
    window.screen.press(Key::f11);
    window.screen.press(Key::escape);
    CHECK(window.screen.offers("Readiness"));
}

TEST_CASE("Esc closes the form first, and leaves the bowl's mode only then") {
    Opened o;
    o.screen.press(Key::f11);
    o.screen.click("Something else went in");
    o.screen.press(Key::escape);
    CHECK_FALSE(o.screen.offers("Confirm what went in"));
    CHECK(o.view.is_bowl);
    o.screen.press(Key::escape);
    CHECK_FALSE(o.view.is_bowl);
}

TEST_CASE("After a batch is confirmed the next one starts at the top") {
    Opened o;
    CHECK(o.screen.says("batch 3 of 12 ·"));
    o.screen.turn_wheel("Mix", -20);
    CHECK_FALSE(o.screen.says("batch 3 of 12 ·"));
    o.screen.click("Confirm batch 3 of 12");
    ++o.model.card->batch;
    o.tell_done();
    CHECK(o.screen.says("batch 4 of 12 ·"));
}

TEST_CASE("The type of the batch grows with the window") {
    const auto height_at = [](float width, float height) {
        Opened o{test::a_batch(), {.width = width, .height = height}};
        return o.screen.find("Water").rect.height();
    };
    CHECK(height_at(1920, 1080) == Approx(1.5 * height_at(1280, 720)).margin(3));
}

TEST_CASE("A stop says what becomes of the bowl and of the batches that hold the lot") {
    auto model = test::a_batch();
    model.card->verdict = {
        app::CardVerdict::Ruling::do_not_mix,
        "Do not mix",
        {{"lot_not_released", true, "Lot B26-031 is held", "Quality staff lift it", "a rule"}}};
    model.card->lots[0].is_withheld = true;
    model.card->logged.front().words = "98 kg B26-031, 52 kg B26-044";
    Opened o{model};
    CHECK(o.screen.says("Leave the bowl as it is"));
    CHECK(o.screen.says(
        fmt::format("Batch {} holds B26-031 too: set that dough aside.", model.card->logged.front().number)));
    CHECK(o.screen.value_of("B26-031") == "do not weigh");
    o.screen.click("Call quality");
    CHECK(o.screen.says("Quality staff lift it. (a rule)"));
    // So it does where the lot leaves no card at all.
    o.view.page = views::MixerView::batch_page;
    o.model.card->lots.clear();
    o.model.card->refusals = {{"Lot B26-031", "it is not released", "Use a released lot"}};
    o.screen.settle();
    CHECK(o.screen.says("holds B26-031 too: set that dough aside."));
    o.view.page = views::MixerView::why_page;
    o.screen.settle();
    CHECK(o.screen.says("Quality staff lift it. (a rule)"));
}
