#include "app/acts/batches.h"
#include "app/acts/solutions.h"
#include "app/models/mixer.h"
#include "support/catch.h"
#include "ui/views/mixer_opened.h"

using namespace mellowbin;
using ui::Key;
using Opened = test::OpenedMixer;

namespace {

app::MixerModel without_solution() {
    auto model = test::a_poured_batch();
    model.card->solution.clear();
    model.card->solution_id.reset();
    model.card->oxidant = {"Ascorbic acid", 2.9, 1, "g", "exact 2.86 g"};
    return model;
}

} // namespace

TEST_CASE("What is poured stands in mL alone, one figure to act on, with the solution's words") {
    Opened o{test::a_poured_batch()};
    CHECK(o.screen.value_of("Ascorbic acid") == "380");
    CHECK(o.screen.find("Ascorbic acid").unit == "mL");
    CHECK_FALSE(o.screen.says("of the substance"));
    CHECK(o.screen.says("solution of 7.5 g/L"));
    o.screen.turn_wheel("Mix", -3);
    CHECK(o.screen.says("7.5 g/L, made 04:10 by Ines, until Thu 04:10"));
    CHECK_FALSE(o.screen.says("Past its time"));
    CHECK_FALSE(o.screen.offers("New solution"));
}

TEST_CASE("A withheld dose is read as withheld, not as a figure to weigh") {
    auto model = test::a_batch();
    model.card->oxidant = {"Ascorbic acid", {}, 0, "g", "EU, bread: ascorbic acid is not confirmed",
                           "withheld"};
    Opened o{model};
    CHECK(o.screen.value_of("Ascorbic acid") == "withheld");
    CHECK(o.screen.says("is not confirmed"));
    CHECK_FALSE(o.screen.offers("Checked by"));
}

TEST_CASE("A solution past its time is said loud and can be poured away") {
    Opened o{test::a_past_solution()};
    const auto* words = o.note_with("✕ Past its time: pour it away");
    REQUIRE(words);
    CHECK(words->rect.height() >= 25);
    CHECK(o.screen.says("until Tue 04:10"));
    o.screen.click("Poured away");
    REQUIRE(o.all<app::EndSolution>().size() == 1);
    CHECK(o.all<app::EndSolution>()[0].solution == SolutionId{5});
    o.tell_refused({{"Solution", "is poured away already", "Make a new one"}});
    CHECK(o.screen.says("Solution: is poured away already. Make a new one"));
}

TEST_CASE("A new solution is made from the card, of its oxidant unless another is chosen") {
    Opened o{test::a_past_solution()};
    o.screen.click("New solution");
    CHECK(o.screen.value_of("Oxidant") == "Ascorbic acid");
    CHECK(o.screen.is_focused("Strength"));
    CHECK(o.screen.find("Strength").unit == "g/L");
    CHECK(o.screen.find("Keeps").unit == "h");
    o.screen.type("Strength", "7,5");
    o.screen.type("Keeps", "24");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::MakeSolution>().size() == 1);
    CHECK(o.all<app::MakeSolution>()[0].substance == "Ascorbic acid");
    CHECK(o.all<app::MakeSolution>()[0].grams_per_litre == "7,5");
    CHECK(o.all<app::MakeSolution>()[0].keeps_hours == "24");
    CHECK(o.all<app::ConfirmBatch>().empty());

    o.tell_refused({{"Strength", "7,5 was read; 50 at the most dissolves", ""}, {"Cup", "is broken", ""}});
    CHECK(o.screen.value_of("Strength") == "7,5");
    CHECK(o.screen.value_of("Keeps") == "24");
    CHECK(o.screen.says("50 at the most dissolves"));
    CHECK(o.screen.says("Cup: is broken"));

    o.screen.click("Solution is made");
    o.model.card->solution = "7.5 g/L, made 05:02 by Ines, until Thu 05:02";
    o.model.card->solution_is_past = false;
    o.tell_done();
    CHECK_FALSE(o.screen.offers("Strength"));
    CHECK_FALSE(o.screen.offers("New solution"));
    CHECK_FALSE(o.screen.says("Past its time"));
}

TEST_CASE("Where the line pours but no solution is logged, the card speaks grams and offers the form") {
    Opened o{without_solution()};
    CHECK(o.screen.find("Ascorbic acid").unit == "g");
    CHECK_FALSE(o.screen.offers("Poured away"));
    o.screen.click("New solution");
    o.screen.type("Strength", "10");
    o.screen.press(Key::escape);
    CHECK_FALSE(o.screen.offers("Strength"));
    o.screen.click("New solution");
    CHECK(o.screen.value_of("Strength") == "10");
    o.screen.click("Oxidant");
    o.screen.click("Potassium bromate");
    o.screen.click("Solution is made");
    REQUIRE(o.all<app::MakeSolution>().size() == 1);
    CHECK(o.all<app::MakeSolution>()[0].substance == "Potassium bromate");
    CHECK(o.all<app::MakeSolution>()[0].keeps_hours.empty());
}

TEST_CASE("A dose that no scale can weigh can be answered by a solution where there is no card") {
    auto model = test::a_batch();
    model.card->refusals = {{"Ascorbic acid", "0.3 g is less than the scale can weigh", "Make a solution"}};
    Opened o{model};
    o.screen.click("New solution");
    o.screen.type("Strength", "7.5");
    o.screen.click("Solution is made");
    CHECK(o.all<app::MakeSolution>().size() == 1);
}
