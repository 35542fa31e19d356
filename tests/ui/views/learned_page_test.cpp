#include "app/acts/learning.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

struct LearnedShown : WholeWindow {
    LearnedShown() : WholeWindow(Screen::settings) { screen.click("Learned"); }
};

} // namespace

TEST_CASE("A learned figure stands beside the published one, with its lots and what it means") {
    LearnedShown o;
    CHECK(o.screen.says("The published figures hold."));
    const std::string rate = "Maturing rate of white flour at 20 °C";
    CHECK(o.screen.value_of(rate + "/Published") == "0.082 per day, 0.041 to 0.164");
    CHECK(o.screen.value_of(rate + "/The retests say") == "0.115 per day, 0.090 to 0.147");
    CHECK(o.screen.says("matures about 1.4 times faster than published"));
    CHECK(o.screen.says("From 7 lots: W26-101, W26-103"));
    CHECK(o.screen.says("does not improve with storage"));
}

TEST_CASE("What the retests say is adopted by a button, beside the caution that it promises no strength") {
    LearnedShown o;
    CHECK(o.screen.says("An estimate is no promise of strength"));
    CHECK_FALSE(o.screen.offers("Back to the published figures"));
    o.screen.click("Use what the retests say");
    CHECK_NOTHROW(o.last<app::AdoptLearned>());
}

TEST_CASE("Learned figures are given up for the published ones") {
    LearnedShown o;
    o.settings.learning.is_learned = true;
    o.settings.learning.standing = "Learned on 3 Nov from 7 lots by Ines.";
    o.screen.settle();
    CHECK(o.screen.says("Learned on 3 Nov from 7 lots by Ines."));
    o.screen.click("Back to the published figures");
    CHECK(o.last<app::RestoreLearned>().learning == LearningId{0});
}

TEST_CASE("While there is nothing to adopt, the button says why and does nothing") {
    LearnedShown o;
    o.settings.learning.blocked = "Retests of two lots at least are needed";
    o.did.clear();
    o.screen.settle();
    CHECK(o.screen.says("Retests of two lots at least are needed"));
    o.screen.click("Use what the retests say");
    CHECK(o.did.empty());
    o.settings.learning.rows.clear();
    o.screen.settle();
    CHECK(o.screen.says("Nothing was learned yet."));
}

TEST_CASE("Figures that a retest has overtaken are worked out anew by a button") {
    LearnedShown o;
    CHECK_FALSE(o.screen.offers("Work out what the retests say"));
    o.settings.learning.is_stale = true;
    o.screen.settle();
    CHECK(o.screen.says("A retest has changed since these figures were worked out."));
    o.screen.click("Work out what the retests say");
    CHECK_NOTHROW(o.last<app::CompareLearned>());
    o.settings.learning.rows.clear();
    o.screen.settle();
    CHECK(o.screen.says("What the retests say was not worked out yet."));
}
