#include "app/acts/bakes.h"
#include "app/acts/notice.h"
#include "app/models/ladders.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "support/catch.h"
#include "ui/models/doughs.h"
#include "ui/models/lots.h"
#include "ui/models/plan.h"
#include "ui/views/lots/view.h"
#include "ui/widgets/laid_out.h"

using namespace mellowbin;
using test::tells;
using testing::Screen;

namespace {

/// Lots with W26-131 opened, its loaves on the sheet.
struct BakedLot {
    app::LotsModel lots = test::seven_lots();
    app::ReadinessModel readiness = test::six_lots();
    views::LotsView view;
    app::Notice notice;
    app::Intents did;
    Screen screen;

    explicit BakedLot(std::vector<app::LadderModel> ladders = test::two_ladders(), ui::FrameSetup setup = {})
        : screen([this] { draw(view, lots, readiness, notice, did); }, setup) {
        lots.opened = test::a_sheet();
        lots.opened->ladders = std::move(ladders);
        lots.opened->substances = {"Ascorbic acid", "Potassium bromate", "Azodicarbonamide"};
        screen.settle();
        screen.click("Page/Bakes");
    }
    template <class Act> const Act& last() const {
        REQUIRE_FALSE(did.empty());
        if (const auto* act = did.back().as<Act>())
            return *act;
        throw std::runtime_error("something else was done. On the screen:\n" + screen.words());
    }
    void tell(app::Notice answer) {
        notice = std::move(answer);
        screen.settle();
    }
    void type_some() {
        screen.click("Log a loaf");
        screen.click("Oxidant/Oxidant");
        screen.click("Oxidant/Potassium bromate");
        screen.type("Loaf/Dose", "40,5");
        screen.type("Loaf/Size", "1064");
        screen.type("Loaf/Baked on", "2026-11-24");
        screen.type("Loaf/Note", "open top");
    }
    void log(std::uint64_t number) {
        ++lots.opened->bakes_logged;
        tell(test::done(number, "Loaf of W26-131 logged"));
    }
};

} // namespace

TEST_CASE("A lot without loaves says what to bake, and nothing is drawn") {
    BakedLot o(std::vector<app::LadderModel>{});
    CHECK(tells(o.screen, "None yet. Bake loaves of this lot with rising doses"));
    CHECK_FALSE(tells(o.screen, "Oxidation response to"));
    CHECK(o.screen.offers("Log a loaf"));
}

TEST_CASE("The best dose, what it gains and the dose to bake next are told as estimates") {
    BakedLot o;
    for (const char* words :
         {"Ascorbic acid, loaf volume", "best at 47 mg/kg (32 to 61, to hold in 80 of 100)",
          "106 ml over none (61 to 148 in 80 of 100)", "Baked at 62 % matured, today 70 %",
          "Pan bread: up to 30 mg/kg", "Island bun: none is permitted", "Bake 55 mg/kg next",
          "Nothing is said above 80 mg/kg", "Azodicarbonamide, loaf height"}) {
        INFO(words);
        CHECK(tells(o.screen, words));
    }
}

TEST_CASE("Size stands over dose: axes with units, loaves as marks, the value under the pointer") {
    BakedLot o(test::two_ladders(), {.width = 1280, .height = 3200}); // all of it in view
    CHECK(tells(o.screen, "loaf volume, ml"));
    CHECK(tells(o.screen, "dose, mg/kg"));
    CHECK(tells(o.screen, "40 mg/kg: 1064 ml"));
    CHECK(tells(o.screen, "2.5 mg/kg: 118 mm"));
    const auto& low = o.screen.find("0 mg/kg: 958 ml").rect;
    const auto& high = o.screen.find("80 mg/kg: 1012 ml").rect;
    CHECK(low.left < o.screen.find("20 mg/kg: 1031 ml").rect.left);
    CHECK(high.right <= o.screen.find("Oxidation response to Ascorbic acid").rect.right + 1);
    CHECK(o.screen.find("40 mg/kg: 1064 ml").rect.top < low.top);
    const auto mark = o.screen.find("40 mg/kg: 1064 ml").rect;
    o.screen.point_at((mark.left + mark.right) / 2, (mark.top + mark.bottom) / 2);
    const auto under = o.screen.value_of("Oxidation response to Ascorbic acid");
    INFO(under);
    CHECK(under.starts_with("40 mg/kg: 1060 ml (1040 – 1080)"));
}

TEST_CASE("The curve of sizes is also a table, of one oxidant at a time") {
    BakedLot o;
    o.screen.click("Ascorbic acid, loaf volume/Show as a table");
    CHECK(tells(o.screen, "Oxidation response to Ascorbic acid by dose"));
    CHECK(tells(o.screen, "Oxidation response to Azodicarbonamide"));
    CHECK(tells(o.screen, "40 | 1040 | 1060 | 1080"));
    o.screen.click("Show the curve");
    CHECK(tells(o.screen, "Oxidation response to Ascorbic acid"));
}

TEST_CASE("A loaf is logged letter by letter as it was typed, with its unit") {
    BakedLot o;
    o.type_some();
    CHECK(o.screen.find("Loaf/Dose").unit == "mg/kg");
    CHECK(o.screen.find("Loaf/Size").unit == "ml");
    o.screen.click("Log the loaf");
    const auto& act = o.last<app::LogBake>();
    CHECK(act.lot == LotId{6});
    CHECK(act.bake.substance == "Potassium bromate");
    CHECK(act.bake.dose == "40,5");
    CHECK(act.bake.measure == "volume");
    CHECK(act.bake.size == "1064");
    CHECK(act.bake.baked_on == "2026-11-24");
    CHECK(act.bake.note == "open top");
    o.screen.click("Measure/Height");
    CHECK(o.screen.find("Loaf/Size").unit == "mm");
    o.screen.click("Log the loaf");
    CHECK(o.last<app::LogBake>().bake.measure == "height");
}

TEST_CASE("Beside an oxidant's dose stands its caution") {
    BakedLot o;
    CHECK_FALSE(tells(o.screen, "gloves"));
    o.screen.click("Log a loaf");
    CHECK(tells(o.screen,
                "Weigh an oxidant with gloves: a small mistake is a large dose. The law of the place "
                "comes first."));
}

TEST_CASE("A ladder goes on by keys alone: the form opens at the dose, Enter logs, the next dose follows") {
    BakedLot o(std::vector{test::two_ladders().front()});
    o.screen.click("Log a loaf");
    CHECK(o.screen.is_focused("Loaf/Dose"));
    o.screen.type("55");
    o.screen.press(ui::Key::enter);
    CHECK(o.last<app::LogBake>().bake.substance == "Ascorbic acid"); // of the ladder that was begun
    CHECK(o.last<app::LogBake>().bake.dose == "55");
    o.log(1);
    CHECK(o.screen.is_focused("Loaf/Dose"));
    o.screen.type("60");
    CHECK(o.screen.value_of("Loaf/Dose") == "60");
}

TEST_CASE("A logged loaf empties dose, size and note; lot, oxidant, measure and day stay for the next one") {
    BakedLot o;
    o.type_some();
    o.screen.click("Log the loaf");
    o.log(1);
    CHECK(o.screen.value_of("Loaf/Dose").empty());
    CHECK(o.screen.value_of("Loaf/Size").empty());
    CHECK(o.screen.value_of("Loaf/Note").empty());
    CHECK(o.screen.value_of("Loaf/Baked on") == "2026-11-24");
    CHECK(o.screen.value_of("Oxidant/Oxidant") == "Potassium bromate");
}

TEST_CASE("A refused loaf keeps what was typed, each refusal beside its field") {
    BakedLot o;
    o.type_some();
    o.screen.click("Log the loaf");
    o.tell(test::refused(1, {{"Dose", "40,5 was read; at most 30 mg/kg is permitted", "Bake less"},
                             {"Size", "1064 was read; from 100 to 900 ml is expected", "Check the figure"},
                             {"Lot", "W26-131 is rejected", "Choose another"}}));
    CHECK(o.screen.value_of("Loaf/Dose") == "40,5");
    CHECK(o.screen.value_of("Loaf/Size") == "1064");
    CHECK(o.screen.value_of("Loaf/Note") == "open top");
    const auto& dose = o.screen.find("40,5 was read; at most 30 mg/kg is permitted. Bake less");
    CHECK(dose.kind == ui::Kind::refusal);
    CHECK(dose.rect.left >= o.screen.find("Loaf/Dose").rect.right);
    CHECK(tells(o.screen, "1064 was read; from 100 to 900 ml is expected. Check the figure"));
    CHECK(tells(o.screen, "Lot: W26-131 is rejected. Choose another"));
    o.screen.type("Loaf/Dose", "30");
    o.screen.click("Log the loaf");
    o.log(2);
    CHECK_FALSE(tells(o.screen, "Bake less"));
}

TEST_CASE("A loaf logged elsewhere, or one that failed to be written, empties nothing") {
    BakedLot o;
    o.type_some();
    o.log(1);
    CHECK(o.screen.value_of("Loaf/Dose") == "40,5");
    o.screen.click("Log the loaf");
    o.tell(test::done(2, "A plan was found"));
    CHECK(o.screen.value_of("Loaf/Dose") == "40,5");
    o.screen.click("Log the loaf");
    o.tell(test::failed(3));
    o.tell({});
    CHECK(o.screen.value_of("Loaf/Dose") == "40,5");
}

TEST_CASE("Closing the loaf's form or opening another lot loses nothing that was typed") {
    BakedLot o;
    o.type_some();
    o.screen.click("Log the loaf");
    o.tell(test::refused(1, {{"Dose", "is wrong", "Check it"}}));
    o.screen.click("Close form");
    o.screen.click("Log a loaf");
    CHECK(o.screen.value_of("Loaf/Dose") == "40,5");
    o.lots.opened->row.id = LotId{5};
    o.lots.opened->row.code = "W26-127";
    o.screen.settle();
    CHECK(tells(o.screen, "A loaf of W26-127"));
    CHECK(o.screen.value_of("Loaf/Dose").empty());
    CHECK_FALSE(tells(o.screen, "is wrong. Check it"));
    o.lots.opened->row.id = LotId{6};
    o.screen.settle();
    CHECK(o.screen.value_of("Loaf/Dose") == "40,5");
    CHECK(tells(o.screen, "is wrong. Check it"));
}

TEST_CASE("A loaf is withdrawn after a question, with the reason; one withdrawn is not offered") {
    BakedLot o;
    CHECK(tells(o.screen, "Withdrawn · oven was cold · Tomas"));
    CHECK_FALSE(o.screen.offers("Ascorbic acid, loaf volume/3/Withdraw"));
    o.screen.click("Ascorbic acid, loaf volume/4/Withdraw");
    CHECK(o.screen.says("Withdraw this loaf?"));
    CHECK(o.screen.says("Ascorbic acid, Tue 24 Nov: 40 mg/kg, 1064 ml"));
    o.screen.type("Reason", "proofed twice");
    o.screen.press(ui::Key::enter);
    CHECK(o.last<app::WithdrawBake>().bake == BakeId{4});
    CHECK(o.last<app::WithdrawBake>().reason == "proofed twice");
}

TEST_CASE("Nothing of a lot's bakes is cut or lies over another thing, at 100 % and at 200 %") {
    for (const float text_size : {1.0F, 2.0F}) {
        BakedLot o(test::two_ladders(), test::beside_the_rail(text_size));
        o.screen.click("Log a loaf");
        o.view.bakes.form.refuse(
            LotId{6}, {{"Oxidant", "is empty", "Choose one"},
                       {"Dose", "400 was read; from 0 to 300 mg/kg is expected", "Check the comma"},
                       {"Size", "\"x\" was read; a number is expected", "Type digits"},
                       {"Baked on", "2026-12-24 was read, which is after today", "Log it then"}});
        o.screen.settle();
        for (const char* place :
             {"Loaf/Dose", "Loaf/Note", "Log the loaf", "Ascorbic acid, loaf volume/4/Withdraw"}) {
            o.screen.click(place);
            test::check_laid_out(o.screen);
        }
    }
}
