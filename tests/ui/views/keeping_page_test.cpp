#include "app/acts/doughs.h"
#include "app/acts/keeping.h"
#include "app/acts/notice.h"
#include "app/models/keeping.h"
#include "app/models/mixer.h"
#include "support/catch.h"
#include "ui/models/doughs.h"
#include "ui/models/lots.h"
#include "ui/models/plan.h"
#include "ui/views/mixer/keeping_page.h"
#include "ui/widgets/laid_out.h"

using namespace mellowbin;
using test::tells;
using testing::Screen;

namespace {

struct Kept {
    app::MixerModel model = test::a_batch();
    views::KeepingPage page;
    app::Notice notice;
    app::Intents did;
    Screen screen;

    explicit Kept(std::optional<app::KeepingModel> keeping = test::pan_bread_keeping(),
                  ui::FrameSetup setup = {})
        : screen([this] { draw(page, model, notice, did); }, setup) {
        model.keeping = std::move(keeping);
        screen.settle();
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
    void log(std::uint64_t number) {
        ++model.batches_logged;
        tell(test::done(number, "Logged"));
    }
    void type_mould() {
        screen.type("Baked on", "2026-11-20");
        screen.type("Days", "5");
        screen.click("Finding/Mould seen");
        screen.type("pH", "5,8");
        screen.type("Note", "on the cut");
    }
};

} // namespace

TEST_CASE("Without a run the page says how the keeping of its product comes to stand there") {
    Kept o(std::nullopt);
    CHECK(o.screen.says("Choose a run on Batch first"));
    CHECK_FALSE(o.screen.offers("Log the finding"));
}

TEST_CASE("What is wrong with the keeping stands loud above its figures") {
    Kept o;
    const auto& warning = o.screen.find("Look at this first").rect;
    CHECK(o.screen.says("Mould on day 5 of the newest bakes"));
    CHECK(warning.bottom < o.screen.find("In finished bread").rect.top);
    CHECK(o.screen.value_of("In finished bread") == "2070");
    CHECK(o.screen.value_of("Acid that works") == "8.5");
}

TEST_CASE("Each market's limit tells by a word how it stands") {
    Kept o;
    CHECK(tells(o.screen, "Permitted. Canada: 2 070 of 2 000 to 3 000 mg/kg"));
    CHECK(tells(o.screen, "Not confirmed. Brazil: nobody has read the row in its source"));
    CHECK(tells(o.screen, "Forbidden. House rule: none in bread sold as plain"));
}

TEST_CASE("What the product is sold as is shown and chosen beside the law, and sent at once") {
    Kept o;
    CHECK(o.screen.value_of("Sold as") == name_of(SoldAs::prepacked_sliced));
    CHECK(o.did.empty());
    o.screen.click("Sold as");
    o.screen.click(name_of(SoldAs::not_prepacked));
    CHECK(o.last<app::ChangeDough>().product == "Pan bread");
    CHECK(o.last<app::ChangeDough>().sold_as == "not_prepacked");
    o.model.keeping->sold_as = SoldAs::not_prepacked;
    o.screen.settle();
    CHECK(o.screen.value_of("Sold as") == name_of(SoldAs::not_prepacked));
}

TEST_CASE("Where nobody said what the product is sold as, nothing is taken for it") {
    Kept o(test::bare_keeping());
    CHECK(o.screen.value_of("Sold as").empty());
    CHECK(o.did.empty());
}

TEST_CASE("A withheld preservative shows no dose, but why") {
    auto keeping = test::pan_bread_keeping();
    keeping.is_withheld = true;
    keeping.figures[0].value.reset();
    keeping.figures[0].note = "withheld: Canada, bread: not confirmed";
    keeping.limits = {
        {app::KeepingLimit::Standing::not_known, "Canada, bread: what the bread carries is not known"}};
    Kept o(keeping);
    CHECK(o.screen.value_of("Calcium propionate") == "–");
    CHECK(tells(o.screen, "withheld: Canada, bread: not confirmed"));
    CHECK(tells(o.screen, "Not known. Canada, bread: what the bread carries"));
}

TEST_CASE("The published line is told as an estimate beside the site's own record, and advice in its order") {
    Kept o;
    CHECK(tells(o.screen, "4.6 days free of mould at an ERH of 94 %, by the published line"));
    CHECK(tells(o.screen, "Mould first seen on day 5 of 12 bakes"));
    const auto top = [&](std::string_view words) { return o.screen.find(words).rect.top; };
    CHECK(top("1. Clean the cooler and the slicer, and look where mould settles") <
          top("2. Then bring the dough below pH 5.6"));
    CHECK(top("2. Then bring the dough below pH 5.6") < top("3. Only then raise the dose"));
}

TEST_CASE("The trade's words stand under the advice, marked as common practice without a source") {
    Kept o;
    const auto words =
        "Whole wheat bread moulds sooner than white, being moister (common practice, no source)";
    CHECK(o.screen.find("3. Only then raise the dose").rect.top < o.screen.find(words).rect.top);
    CHECK(tells(o.screen, "measured as firmness (common practice, no source)"));
}

TEST_CASE("A product of which nothing was said or logged says what is missing") {
    Kept o(test::bare_keeping());
    CHECK_FALSE(tells(o.screen, "Look at this first"));
    for (const char* words :
         {"Nothing was said of a preservative", "No preservative goes in", "Refused: no ERH of the crumb",
          "None yet: log what bread", "Nothing asks for a change.", "None was logged yet.",
          "None yet. Keep some loaves"}) {
        INFO(words);
        CHECK(tells(o.screen, words));
    }
}

TEST_CASE("A finding of mould is logged letter by letter as it was typed") {
    Kept o;
    o.type_mould();
    o.screen.click("Log the finding");
    const auto& record = o.last<app::LogKeeping>().record;
    CHECK(record.product == "Pan bread");
    CHECK(record.kind == "mould");
    CHECK(record.baked_on == "2026-11-20");
    CHECK(record.days == "5");
    CHECK(record.finding == "mould");
    CHECK(record.ph == "5,8");
    CHECK(record.note == "on the cut");
    o.screen.click("Finding/No mould");
    o.screen.click("Log the finding");
    CHECK(o.last<app::LogKeeping>().record.finding == "none");
}

TEST_CASE("Nothing is taken for a finding that nobody made") {
    Kept o;
    o.screen.type("Days", "3");
    o.screen.press(ui::Key::enter);
    CHECK(o.last<app::LogKeeping>().record.finding.empty());
    CHECK(o.last<app::LogKeeping>().record.days == "3");
}

TEST_CASE("Firmness asks for grams in place of a finding, and the other kind's words are not logged") {
    Kept o;
    o.type_mould();
    o.screen.click("Kind/Firmness");
    CHECK_FALSE(o.screen.offers("Finding/No mould"));
    o.screen.type("Record/Firmness", "412,5");
    CHECK(o.screen.find("Record/Firmness").unit == "g");
    o.screen.press(ui::Key::enter);
    const auto& record = o.last<app::LogKeeping>().record;
    CHECK(record.kind == "firmness");
    CHECK(record.firmness == "412,5");
    CHECK(record.finding.empty());
    o.screen.click("Kind/Mould");
    o.screen.click("Log the finding");
    CHECK(o.last<app::LogKeeping>().record.firmness.empty());
    CHECK(o.last<app::LogKeeping>().record.finding == "mould");
}

TEST_CASE("A refused record of keeping keeps what was typed, each refusal beside its field") {
    Kept o;
    o.type_mould();
    o.screen.click("Log the finding");
    ++o.model.batches_logged; // a batch went in meanwhile: that is no answer to this form
    o.tell(test::refused(1, {{"Days", "-5 was read; from 0 to 60 is expected", "Count the days"},
                             {"pH", "58 was read; from 3 to 8 is expected", "Check the comma"},
                             {"Product", "\"Pan bread\" is not known", "Choose another run"}}));
    CHECK(o.screen.value_of("Days") == "5");
    CHECK(o.screen.value_of("pH") == "5,8");
    CHECK(o.screen.value_of("Note") == "on the cut");
    const auto& days = o.screen.find("-5 was read; from 0 to 60 is expected. Count the days");
    CHECK(days.kind == ui::Kind::refusal);
    CHECK(days.rect.left >= o.screen.find("Days").rect.right);
    CHECK(tells(o.screen, "58 was read; from 3 to 8 is expected. Check the comma"));
    CHECK(tells(o.screen, "Product: \"Pan bread\" is not known. Choose another run"));
}

TEST_CASE("A record of keeping that failed to be written is still there as typed") {
    Kept o;
    o.type_mould();
    o.screen.click("Log the finding");
    o.tell(test::failed(1));
    o.tell({});
    CHECK(o.screen.value_of("Note") == "on the cut");
}

TEST_CASE("A logged record empties the form and takes its refusals away; the kind stays") {
    Kept o;
    o.screen.click("Kind/Firmness");
    o.screen.type("Record/Firmness", "nine");
    o.screen.press(ui::Key::enter);
    o.tell(test::refused(1, {{"Firmness", "\"nine\" was read; a number is expected", "Type digits"}}));
    o.screen.type("Record/Firmness", "412");
    o.screen.press(ui::Key::enter);
    o.log(2);
    CHECK(o.screen.value_of("Record/Firmness").empty());
    CHECK_FALSE(tells(o.screen, "\"nine\" was read"));
}

TEST_CASE("What is logged elsewhere does not empty what is being typed of keeping") {
    Kept o;
    o.type_mould();
    o.log(1);
    CHECK(o.screen.value_of("Note") == "on the cut");
}

TEST_CASE("A notice of something else that was done does not empty a record of keeping that was sent") {
    Kept o;
    o.type_mould();
    o.screen.click("Log the finding");
    o.tell(test::done(1, "A plan was found"));
    CHECK(o.screen.value_of("Note") == "on the cut");
}

TEST_CASE("Another product has a draft and refusals of its own, and the first one is not lost") {
    Kept o;
    o.type_mould();
    o.screen.click("Log the finding");
    o.tell(test::refused(1, {{"Days", "is wrong", "Check it"}}));
    o.model.keeping = test::bare_keeping();
    o.screen.settle();
    CHECK(o.screen.value_of("Note").empty());
    CHECK_FALSE(tells(o.screen, "is wrong. Check it"));
    o.model.keeping = test::pan_bread_keeping();
    o.screen.settle();
    CHECK(o.screen.value_of("Note") == "on the cut");
    CHECK(tells(o.screen, "is wrong. Check it"));
}

TEST_CASE(
    "A record of keeping is withdrawn after a question, with the reason; one withdrawn is not offered") {
    Kept o;
    CHECK(tells(o.screen, "Withdrawn · Tomas"));
    CHECK_FALSE(o.screen.offers("Records/2/Withdraw"));
    o.screen.click("Records/3/Withdraw");
    CHECK(o.screen.says("Withdraw this record?"));
    CHECK(o.screen.says("Sat 21 Nov: day 3: firmness 412 g"));
    o.screen.type("Reason", "wrong plunger");
    o.screen.press(ui::Key::enter);
    CHECK(o.last<app::WithdrawKeeping>().record == KeepingId{3});
    CHECK(o.last<app::WithdrawKeeping>().reason == "wrong plunger");
    o.tell(test::refused(1, {{"Reason", "is too short", "Say why"}}));
    CHECK(o.screen.value_of("Reason") == "wrong plunger");
    o.screen.press(ui::Key::escape);
    CHECK_FALSE(o.screen.says("Withdraw this record?"));
}

TEST_CASE("Firmness stands over the days after the bake, its value under the pointer, and as a table") {
    Kept o(test::pan_bread_keeping(), {.width = 1060, .height = 1700}); // all of it in view
    CHECK(tells(o.screen, "days after the bake, d"));
    CHECK(tells(o.screen, "day 3: 412 g, 2 loaves"));
    const auto chart = o.screen.find("Firmness of the crumb").rect;
    o.screen.point_at((chart.left + chart.right) / 2, (chart.top + chart.bottom) / 2);
    const auto under = o.screen.value_of("Firmness of the crumb");
    INFO(under);
    CHECK(under.find(" d: ") != std::string::npos);
    CHECK(under.find(" g (") != std::string::npos);
    o.screen.click("Firmness/Show as a table");
    CHECK(o.screen.value_of("Day 3") == "412");
    CHECK(tells(o.screen, "390 to 431, 2 loaves"));
    CHECK(tells(o.screen, "560 to 560, 1 loaf"));
}

TEST_CASE("Nothing of the keeping is cut or lies over another thing, at 100 % and at 200 %") {
    for (const float text_size : {1.0F, 2.0F})
        for (const auto& keeping : {test::pan_bread_keeping(), test::bare_keeping()}) {
            Kept o(keeping, test::beside_the_rail(text_size));
            o.page.form.refuse(keeping.product,
                               {{"Baked on", "2026-12-20 was read, which is after today", "Log it then"},
                                {"Days", "-5 was read; from 0 to 60 is expected", "Count the days"},
                                {"Finding", "is empty", "Say whether mould was seen"},
                                {"pH", "58 was read; from 3 to 8 is expected", "Check the comma"}});
            o.screen.settle();
            test::check_laid_out(o.screen);
            for (const char* place : {"Days", "Note", "Log the finding"}) {
                o.screen.click(place);
                test::check_laid_out(o.screen);
            }
        }
}
