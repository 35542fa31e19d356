#include "app/acts/mill_words.h"
#include "support/catch.h"
#include "ui/models/certificate.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

struct OverWords : WholeWindow {
    OverWords() : WholeWindow(Screen::plant) {
        plant.mill_words = test::words_of_a_mill();
        plant.meanings = test::a_certificate().meanings;
        screen.resize(1600, 1400);
        screens.plant.show({PlantKind::mill, 1});
        screen.settle();
    }
    void open(std::string_view word) {
        screen.double_click(word);
        screen.settle();
    }
};

} // namespace

TEST_CASE("A mill's words are listed with what they mean, since when and by whom; another mill has none") {
    OverWords at;
    CHECK(at.screen.says("What Harrow Mill writes on its certificates"));
    CHECK(at.screen.says("Feuchtkleber"));
    CHECK(at.screen.says("the day before the month"));
    CHECK(at.screen.says("24 Nov 14:20, Ines"));
    at.screens.plant.show({PlantKind::mill, 2});
    at.screen.settle();
    CHECK_FALSE(at.screen.says("Feuchtkleber"));
    CHECK(at.screen.says("They are learned from the first certificate"));
}

TEST_CASE("What a word means is typed over what the book has, and kept") {
    OverWords at;
    at.open("Feuchtkleber");
    CHECK_FALSE(at.screen.is_enabled("Keep this meaning"));
    at.screen.type("Method", "ICC 137");
    at.screen.click("Keep this meaning");
    const auto& act = at.last<app::ChangeMillWords>();
    REQUIRE(act.changes.size() == 1);
    CHECK(act.mill == MillId{1});
    CHECK(act.changes[0].before == at.plant.mill_words[0].word);
    CHECK(act.changes[0].after->method == "ICC 137");
    CHECK(act.changes[0].after->basis == "14 % moisture");
    at.plant.mill_words[0].word.method = "ICC 137";
    ++at.plant.mill_words_changed;
    at.tell(test::done(1, "kept"));
    CHECK_FALSE(at.screen.offers("Keep this meaning"));
}

TEST_CASE("A word is forgotten; what is refused of a change stands at its field with what was typed") {
    OverWords at;
    at.open("Farbe");
    at.screen.click("Forget it");
    const auto& act = at.last<app::ChangeMillWords>();
    CHECK(act.changes[0].before->word == "farbe");
    CHECK_FALSE(act.changes[0].after);
    at.tell(test::refused(1, {{"Farbe", "was changed meanwhile", "Look at it, and change it anew"}}));
    CHECK(at.screen.says("was changed meanwhile"));

    at.open("Feuchtkleber");
    at.screen.type("Method", "ICC 137");
    at.screen.click("Keep this meaning");
    at.tell(test::refused(2, {{"feuchtkleber: Method", "is no method", "Name one"}}));
    CHECK(at.screen.says("is no method. Name one"));
    CHECK(at.screen.field_value("Method") == "ICC 137");
}

TEST_CASE("A word that another station changed under the form says what stands there now") {
    OverWords at;
    at.open("Feuchtkleber");
    at.screen.type("Method", "ICC 137");
    at.plant.mill_words[0].word.basis = "dry matter";
    at.screen.settle();
    CHECK(at.screen.says("dry matter"));
    CHECK(at.screen.field_value("Method") == "ICC 137");
    at.screen.click("Leave it as it is");
    CHECK_FALSE(at.screen.offers("Keep this meaning"));
    CHECK(at.did.empty());
}
