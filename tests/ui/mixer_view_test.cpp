#include "support/catch.h"
#include "support/screen.h"
#include "ui/lot_models.h"
#include "ui/plan_models.h"
#include "ui/views/mixer_view.h"

using namespace mellowbin;
using testing::Screen;
using ui::Key;

namespace {

struct Opened {
    app::MixerModel model = test::a_batch();
    views::MixerView view;
    app::Notice notice;
    app::Overview overview;
    app::Intents asked;
    Screen screen;

    explicit Opened(app::MixerModel mixer = test::a_batch(), ui::FrameSetup setup = {})
        : model(std::move(mixer)), screen([this] { draw(view, model, notice, overview, asked); }, setup) {
        screen.settle();
    }
    template <class T> std::vector<T> all() const {
        std::vector<T> found;
        for (const auto& intent : asked)
            if (const auto* one = std::get_if<T>(&intent))
                found.push_back(*one);
        return found;
    }
};

bool is_whole_in_view(const ui::Note& note) {
    return note.seen.width() >= note.rect.width() - 1 && note.seen.height() >= note.rect.height() - 1;
}

} // namespace

TEST_CASE("With nothing to mix today the Mixer says how a card comes about") {
    Opened o{{.today = test::plan_today(), .runs = {}, .card = {}}};
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

TEST_CASE("What forbids stands above the card") {
    auto model = test::a_batch();
    model.card->cautions.push_back({true, "Flour is short by 40 kg: the lots reach for 11 of 12 batches"});
    Opened o{model};
    CHECK(o.screen.find("✕ Flour is short by 40 kg: the lots reach for 11 of 12 batches").rect.bottom <
          o.screen.find("Water").rect.top);
}

TEST_CASE("A product without oxidant says that none goes in") {
    auto model = test::a_batch();
    model.card->oxidant.clear();
    Opened o{model};
    CHECK(o.screen.says("None"));
}

TEST_CASE("Where the flour needs no oxidant the card says so") {
    auto model = test::a_batch();
    model.card->oxidant_amount = "0";
    model.card->oxidant_note = "none needed: the flour is mature enough";
    std::erase_if(model.card->cautions,
                  [](const auto& caution) { return caution.beside == app::CardCaution::Beside::oxidant; });
    Opened o{model};
    CHECK(o.screen.value_of("Ascorbic acid") == "0");
    CHECK(o.screen.says("none needed"));
}

TEST_CASE("A batch is confirmed by one press, and a second press before the answer confirms nothing") {
    Opened o;
    o.screen.click("Confirm batch 3 of 12");
    REQUIRE(o.all<app::ConfirmBatch>().size() == 1);
    CHECK(o.all<app::ConfirmBatch>()[0].run == RunId{11});
    o.screen.click("Confirm batch 3 of 12");
    CHECK(o.all<app::ConfirmBatch>().size() == 1);

    o.model.card->batch = 4;
    o.notice = test::done(1, "Batch 3 went in");
    o.screen.settle();
    o.screen.click("Confirm batch 4 of 12");
    CHECK(o.all<app::ConfirmBatch>().size() == 2);
}

TEST_CASE("A batch whose confirmation was refused can be confirmed again") {
    Opened o;
    o.screen.click("Confirm batch 3 of 12");
    o.notice = test::refused(1, {{"B26-031", "only 40 kg are there", ""}});
    o.screen.settle();
    CHECK(o.screen.is_enabled("Confirm batch 3 of 12"));
}

TEST_CASE("A run that is all in has nothing to confirm") {
    auto model = test::a_batch();
    model.card->is_finished = true;
    Opened o{model};
    CHECK(o.screen.says("all 12 batches are in"));
    for (const auto& note : o.screen.probe().notes())
        CHECK(note.label.find("Confirm") == std::string::npos);
}

TEST_CASE("The next run comes by the button, by the key, and from the list") {
    Opened o;
    o.screen.click("Next run");
    o.screen.press(Key::right);
    REQUIRE(o.all<app::OpenRun>().size() == 2);
    CHECK(o.all<app::OpenRun>()[0].run == RunId{15});
    CHECK(o.all<app::OpenRun>()[1].run == RunId{15});
    CHECK_FALSE(o.screen.offers("Previous run"));

    o.model.card->run = RunId{16};
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Next run"));
    o.screen.press(Key::left);
    CHECK(o.all<app::OpenRun>().back().run == RunId{15});
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

TEST_CASE("Lots, water and Confirm are in view without scrolling up to 125 % of text size") {
    for (float text : {1.0F, 1.25F}) {
        // What the window leaves to a screen at 1280 x 720, beside the rail and under the line on top.
        Opened o{test::a_batch(), {.width = 1060, .height = 620, .text_size = text}};
        INFO("text size " << text);
        CHECK(is_whole_in_view(o.screen.find("Water")));
        CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
        CHECK(o.screen.says("3\u00a0bags + 23\u00a0kg"));
        CHECK(o.screen.says("52\u00a0kg"));
    }
}

TEST_CASE("At 200 % of text size Confirm is still in view and the rest can be scrolled to") {
    Opened o{test::a_batch(), {.width = 1060, .height = 620, .text_size = 2}};
    CHECK(is_whole_in_view(o.screen.find("Confirm batch 3 of 12")));
    o.screen.click("Confirm batch 3 of 12");
    CHECK(o.all<app::ConfirmBatch>().size() == 1);
}
