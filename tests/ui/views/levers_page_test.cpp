#include "app/acts/fermentation.h"
#include "app/acts/levers.h"
#include "app/acts/notice.h"
#include "app/models/levers.h"
#include "app/models/mixer.h"
#include "support/catch.h"
#include "ui/models/doughs.h"
#include "ui/models/lots.h"
#include "ui/models/plan.h"
#include "ui/views/levers/page.h"
#include "ui/widgets/laid_out.h"

using namespace mellowbin;
using testing::Screen;

namespace {

struct Weighed {
    app::MixerModel model = test::a_batch();
    views::LeversPage page;
    app::Notice notice;
    app::Intents did;
    Screen screen;

    explicit Weighed(std::optional<app::LeversModel> levers = test::some_levers(), ui::FrameSetup setup = {})
        : screen([this] { draw(page, model, notice, did); }, setup) {
        model.levers = std::move(levers);
        screen.settle();
    }
    RunId asked() const {
        REQUIRE(did.size() == 1);
        const auto run = did.back().as<app::ShowLevers>()->run;
        REQUIRE(run);
        return *run;
    }
    float top(std::string_view words) const { return screen.find(words).rect.top; }
};

} // namespace

TEST_CASE("The gap stands on top, with its spread marked as an estimate") {
    Weighed o;
    CHECK(o.screen.says("Pan bread, Wed 25 Nov, Line 1"));
    CHECK(o.screen.says("Strength is short: 66 of 90 % mature, about 15 days at 20 °C too few"));
    CHECK(o.screen.says("the blend counts as 66 %, about 13 days at 20 °C; 55 to 78 % in 80 of 100"));
    CHECK(o.top("✕ Strength is short: 66 of 90 % mature, about 15 days at 20 °C too few") < o.top("Wait"));
}

TEST_CASE("The verdict names the least costly that is enough; what is enough already says so and no figure") {
    Weighed o;
    CHECK(o.screen.says("The least costly that is enough: 35 % of B26-044, +14 a run."));
    o.model.levers->is_short = false;
    o.model.levers->gap = "The strength is enough: nothing is missing";
    o.model.levers->mixes.clear();
    o.screen.settle();
    CHECK(o.screen.says("✓ The strength is enough: nothing is missing"));
    CHECK_FALSE(test::tells(o.screen, "least costly"));
}

TEST_CASE("What each remedy costs stands in the same lines of its card, whatever else is said of it") {
    Weighed o;
    for (const char* cost : {"Time", "Money", "Label"}) {
        INFO(cost);
        CHECK(o.screen.find(std::string("Remedies/0/Wait/") + cost).rect.top ==
              o.screen.find(std::string("Remedies/1/Blend/") + cost).rect.top);
    }
    CHECK(o.screen.value_of("Remedies/0/Wait/Label") == "–");
}

TEST_CASE("What is too far already is warned of before any lever") {
    Weighed o;
    const std::string_view words = "Lot B26-031 is past its best with a probability of 34 %";
    CHECK(o.top(words) < o.top("Wait"));
    o.model.levers->too_far.clear();
    o.screen.settle();
    CHECK_FALSE(o.screen.says("Too far already"));
}

TEST_CASE("Levers stand beside each other, each with its standing in words") {
    Weighed o;
    CHECK(o.top("Wait") == o.top("Blend"));
    CHECK(o.screen.find("Blend").rect.left > o.screen.find("Wait").rect.right);
    for (const char* words : {"enough alone", "helps, not enough alone", "forbidden", "not known",
                              "not needed", "W26-131 alone is ready on Sat 12 Dec, 80 % sure",
                              "between Tue 1 Dec and Wed 16 Dec in 80 of 100 cases",
                              "Published figures of other plants are not taken over"}) {
        INFO(words);
        CHECK(test::tells(o.screen, words));
    }
    CHECK(o.screen.value_of("Remedies/0/Wait/Time") == "17 days");
    CHECK(o.screen.value_of("Remedies/0/Wait/Money") == "nothing");
    CHECK(o.screen.value_of("Remedies/1/Blend/Label") == "as it is");
}

TEST_CASE("A forbidden lever says why right below the word") {
    Weighed o;
    const auto why = o.top("The product is sold without oxidant: its label says so");
    const auto& word = o.screen.find("forbidden").rect;
    CHECK(why >= word.bottom);
    CHECK(why < word.bottom + word.height());
}

TEST_CASE("In a narrow place the levers stand under each other") {
    Weighed o(test::some_levers(), {.width = 480, .height = 620});
    CHECK(o.top("Blend") > o.top("Wait"));
    CHECK(o.screen.find("Blend").rect.left == o.screen.find("Wait").rect.left);
}

TEST_CASE("What several levers reach together comes with the cheapest first") {
    Weighed o;
    CHECK(test::tells(o.screen, "35 % of B26-044"));
    CHECK(o.screen.value_of("0/Least costly/Maturity") == "91 %");
    CHECK(o.screen.value_of("0/Least costly/Money") == "+14 a run");
    CHECK(o.screen.value_of("1/Choice 2/Time") == "30 min");
    CHECK(o.screen.value_of("1/Choice 2/Label") == "as it is");
}

TEST_CASE("Where a remedy can be done at once, longer fermentation is a button that says its minutes") {
    auto levers = test::some_levers();
    auto& ferment = levers.levers[3];
    ferment.standing = app::LeverRow::Standing::reaches;
    ferment.deed = app::RemedyDeed{.minutes = 25, .minutes_more = 25};
    levers.mixes[1].deed = app::RemedyDeed{.minutes = 30, .minutes_more = 30};
    app::Intents did;
    Screen screen([&] { views::draw_levers(levers, &did); }, {.width = 1280, .height = 2000});
    screen.settle();
    screen.click("Ferment 25 min longer");
    REQUIRE(did.size() == 1);
    CHECK(did[0].as<app::FermentLonger>()->run == RunId{11});
    CHECK(did[0].as<app::FermentLonger>()->minutes == "25");
    screen.click("Ferment 30 min longer");
    REQUIRE(did.size() == 2);
    CHECK(did[1].as<app::FermentLonger>()->minutes == "30");
    ferment.deed = app::RemedyDeed{.minutes = 25, .minutes_more = 15}; // it ferments 10 min longer already
    screen.settle();
    CHECK(screen.offers("Ferment 25 min longer in all"));
    ferment.deed.reset();
    screen.settle();
    CHECK_FALSE(screen.offers("Ferment 25 min longer in all"));
}

TEST_CASE("Where nothing can be done of the remedies, none of them is a button") {
    auto levers = test::some_levers();
    levers.levers[3].standing = app::LeverRow::Standing::reaches;
    levers.levers[3].deed = app::RemedyDeed{.minutes = 25, .minutes_more = 25};
    Weighed o(levers);
    CHECK_FALSE(o.screen.offers("Ferment 25 min longer"));
}

TEST_CASE("Where no mix reaches the demand the page says why and what else") {
    Weighed o(test::levers_out_of_reach());
    CHECK(test::tells(o.screen, "No mix reaches 95 %: the best comes to 81 %."));
    CHECK_FALSE(test::tells(o.screen, "Least costly"));
    o.model.levers->no_mix.clear();
    o.screen.settle();
    CHECK(test::tells(o.screen, "None is needed."));
}

TEST_CASE("Levers that were not weighed yet are weighed for the run of the card by one press") {
    Weighed o(std::nullopt);
    o.screen.click("Weigh the remedies");
    CHECK(o.asked() == RunId{11});
}

TEST_CASE("Without a card the levers are asked for by choosing a run") {
    Weighed o(std::nullopt);
    o.model.card.reset();
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Weigh the remedies"));
    o.screen.click("Remedies of/Remedies of");
    o.screen.click("Line 2, 1st: Bun, 9 batches");
    CHECK(o.asked() == RunId{16});
}

TEST_CASE("Another of today's runs is chosen from the list") {
    Weighed o;
    CHECK(o.screen.value_of("Remedies of/Remedies of") == "Line 1, 1st: Pan bread, 12 batches");
    o.screen.click("Remedies of/Remedies of");
    o.screen.click("Line 2, 1st: Bun, 9 batches");
    CHECK(o.asked() == RunId{16});
}

TEST_CASE("Another of today's runs is chosen by keys alone") {
    Weighed o;
    o.screen.press(ui::Key::tab);
    CHECK(o.screen.is_focused("Remedies of/Remedies of"));
    o.screen.press(ui::Key::down);
    CHECK(o.asked() == RunId{15});
}

TEST_CASE("Of a run about which nothing can be said every reason is told, and no lever") {
    auto levers = test::some_levers();
    levers.refusals = {{"Lots", "none is planned for the run", "Plan the week"},
                       {"Strength", "Pan bread has no demand", "Give it one on Settings"}};
    Weighed o(levers);
    CHECK(o.screen.says("Lots: none is planned for the run. Plan the week"));
    CHECK(o.screen.says("Strength: Pan bread has no demand. Give it one on Settings"));
    CHECK_FALSE(test::tells(o.screen, "Wait"));
}

TEST_CASE("A refused asking says why, and a later one that is answered takes the words away") {
    Weighed o(std::nullopt);
    o.screen.click("Weigh the remedies");
    o.notice = test::refused(1, {{"Run", "was dropped at 04:02", "Choose another"}});
    o.screen.settle();
    CHECK(o.screen.says("Run: was dropped at 04:02. Choose another"));
    o.screen.click("Weigh the remedies");
    o.notice = test::done(2, "Weighed");
    o.screen.settle();
    CHECK_FALSE(o.screen.says("was dropped"));
}

TEST_CASE("Nothing of the levers is cut or lies over another thing, at 100 % and at 200 %") {
    for (const float text_size : {1.0F, 2.0F}) {
        for (const auto& levers :
             {std::optional(test::some_levers()), std::optional(test::levers_out_of_reach()),
              std::optional<app::LeversModel>()}) {
            Weighed o(levers, test::beside_the_rail(text_size));
            test::check_laid_out(o.screen);
        }
    }
}
