#include "app/acts/notice.h"
#include "app/acts/plant_records.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plant.h"
#include "app/models/setting_up.h"
#include "first_window.h"
#include "support/catch.h"

using namespace mellowbin;
using app::SetUpStep;
using tests::FirstWindow;
using ui::Key;

namespace {

std::string air() { return std::string(name_of(Air::breathable_bag)); }

/// The plant's records, from its name to its line, typed with the pointer.
void set_up_until_the_product(FirstWindow& window) {
    auto& screen = window.screen();
    screen.type("Question/Plant", "Corner bakery");
    screen.click("Keep the name");
    screen.type("Name", "Weir Mill");
    screen.click("Keep the mill");
    screen.type("Name", "Strong white");
    window.choose("Kind of flour", "White");
    screen.type("Protein, lowest", "11,5");
    screen.click("Keep the flour");
    screen.type("Name", "Bay 1");
    window.choose("What it is", "Bay");
    window.choose("How air gets to the flour", air());
    screen.click("Keep the place");
    screen.type("Name", "Line 1");
    screen.type("Friction factor", "24");
    screen.click("Keep the line");
}

void keep_a_product(FirstWindow& window) {
    auto& screen = window.screen();
    screen.type("Name", "Pan bread");
    window.choose("Market", "Canada");
    window.choose("Counts in law as", "Bread");
    screen.type("Salt", "2");
    screen.click("Keep the product");
}

void check_first_card(FirstWindow& window) {
    INFO(window.screen().words());
    CHECK(window.screens().current() == views::Screen::mixer);
    REQUIRE(window.app().mixer().card);
    const auto& card = *window.app().mixer().card;
    CHECK(card.product == "Pan bread");
    CHECK(card.refusals.empty());
    REQUIRE(card.lots.size() == 1);
    CHECK(card.lots[0].code == "W24-118");
    CHECK(card.water.value);
    CHECK(window.screen().says("W24-118"));
    CHECK_FALSE(window.app().setting_up().is_offered);
}

} // namespace

TEST_CASE("With the pointer alone, by the words on the screen, a person comes from no book to a first card") {
    FirstWindow window;
    auto& screen = window.screen();
    CHECK(screen.offers("Look at the demo"));
    screen.click("Set up your plant");
    set_up_until_the_product(window);
    keep_a_product(window);
    screen.type("Lot number", "W24-118");
    screen.type("Milled on", "2026-05-29");
    screen.type("Weight", "1000");
    window.choose("Basis", "14 % moisture");
    screen.type("Moisture", "14");
    screen.type("Protein", "12,5");
    screen.type("Absorption", "60");
    screen.click("Take in the lot");
    CHECK(screen.says("Lot W24-118 is in quarantine"));
    screen.click("Release the lot");
    screen.click("Plan the run");
    CHECK(window.app().setting_up().next == SetUpStep::card); // the run has its flour
    screen.click("Show the mixer's card");
    check_first_card(window);
}

TEST_CASE("By key alone a person comes from no book to a first card") {
    FirstWindow window;
    auto& screen = window.screen();
    window.press_at("Set up your plant");
    CHECK(screen.focused() == "Plant"); // the first question awaits its answer
    screen.type("Corner bakery");
    screen.press(Key::enter);
    screen.type("Weir Mill");
    screen.press(Key::enter);
    screen.type("Strong white");
    window.choose_at("Kind of flour", "White");
    window.type_at("Protein, lowest", "11.5");
    screen.press(Key::enter);
    screen.type("Bay 1");
    window.choose_at("What it is", "Bay");
    window.choose_at("How air gets to the flour", air());
    window.press_at("Keep the place");
    screen.type("Line 1");
    window.type_at("Friction factor", "24");
    screen.press(Key::enter);
    screen.type("Pan bread");
    window.choose_at("Market", "Canada");
    window.choose_at("Counts in law as", "Bread");
    window.type_at("Compressed yeast", "3");
    screen.press(Key::enter);
    screen.type("W24-118");
    window.type_at("Milled on", "2026-05-29");
    window.type_at("Weight", "1000");
    window.choose_at("Basis", "14 % moisture");
    window.type_at("Moisture", "14");
    window.type_at("Protein", "12.5");
    window.type_at("Absorption", "60");
    screen.press(Key::enter);
    window.press_at("Release the lot");
    window.press_at("Plan the run");
    window.press_at("Show the mixer's card");
    check_first_card(window);
}

TEST_CASE("The assistant goes on where the book stands, after the window was closed in the middle of it") {
    FirstWindow window;
    window.screen().click("Set up your plant");
    set_up_until_the_product(window);
    window.screen().type("Name", "Half a product");
    window.open_again();
    auto& screen = window.screen();
    REQUIRE(window.screens().assistant.is_open);
    CHECK(screen.offers("Keep the product"));
    CHECK(screen.offers("Line ✓"));
    CHECK(screen.field_value("Name").empty()); // of the step at hand only what was typed is gone
    keep_a_product(window);
    CHECK(screen.offers("Take in the lot"));
    window.open_again(); // the plant is whole now: the window opens on its screens, with the way on
    CHECK_FALSE(window.screens().assistant.is_open);
    window.screen().click("Go on setting up");
    CHECK(window.screen().offers("Take in the lot"));
}

TEST_CASE("Later leaves to the screens, which say what is next for as long as it is") {
    FirstWindow window;
    auto& screen = window.screen();
    screen.click("Set up your plant");
    screen.click("Later");
    CHECK_FALSE(window.screens().assistant.is_open);
    CHECK(screen.says("next: the plant's name"));
    screen.click("Set up your plant");
    screen.type("Question/Plant", "Corner bakery");
    screen.click("Keep the name");
    screen.click("Plan"); // on the rail
    CHECK_FALSE(window.screens().assistant.is_open);
    CHECK(screen.says("next: a mill"));
    screen.click("Mixer");
    CHECK_FALSE(screen.says("next: a mill"));
}

TEST_CASE("An answer is looked at and changed by going back, and the assistant then goes on") {
    FirstWindow window;
    auto& screen = window.screen();
    screen.click("Set up your plant");
    set_up_until_the_product(window);
    screen.click("Back");
    CHECK(screen.field_value("Friction factor") == "24");
    screen.type("Friction factor", "26,5");
    screen.click("Keep the line");
    CHECK(screen.offers("Keep the product"));
    const auto& lines = window.app().plant().of(PlantKind::line);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].draft.text("friction_factor_c") == "26.5");
    screen.click("Mill ✓");
    CHECK(screen.field_value("Name") == "Weir Mill");
    screen.click("Go on: a product");
    CHECK(screen.offers("Keep the product"));
}

TEST_CASE("What cannot be is said at its field, and what was typed stays") {
    FirstWindow window;
    auto& screen = window.screen();
    screen.click("Set up your plant");
    CHECK_FALSE(screen.is_enabled("Keep the name"));
    screen.type("Question/Plant", "Corner bakery");
    screen.type("Time zone", "Atlantis");
    screen.click("Keep the name");
    CHECK(screen.says("\"Atlantis\" is not in the zone tables"));
    CHECK(window.app().overview().plant.empty());
    screen.type("Time zone", "Europe/Lisbon");
    screen.click("Keep the name");
    screen.type("Name", "Weir Mill");
    screen.click("Keep the mill");
    screen.type("Name", "Strong white");
    screen.type("Protein, lowest", "14");
    screen.type("Protein, highest", "12");
    screen.click("Keep the flour");
    CHECK(screen.says("is empty")); // its kind
    CHECK(screen.says("the lowest value 14 is above the highest 12"));
    CHECK(screen.field_value("Protein, lowest") == "14");
    CHECK(window.app().setting_up().next == SetUpStep::flour);
}

TEST_CASE("What another station keeps meanwhile, the assistant follows, and what is typed here stays") {
    FirstWindow window;
    auto& screen = window.screen();
    screen.click("Set up your plant");
    screen.type("Question/Plant", "Corner bakery");
    screen.click("Keep the name");
    app::App office({window.book(), "Ines", app::Clock::standing_at(FirstWindow::today())});
    const auto keep_mill = [&](const char* name) {
        auto draft = blank_draft(PlantKind::mill);
        draft.texts["name"] = name;
        office.handle(app::KeepPlantRecord{{PlantKind::mill, 0}, draft});
        REQUIRE(office.notice().kind == app::Notice::Kind::done);
    };
    SECTION("Nothing was typed here: the next question stands there") {
        keep_mill("Ridge Mill");
        screen.settle();
        CHECK(screen.offers("Keep the flour"));
    }
    SECTION("A mill was typed here: it stays, and may be kept as well") {
        screen.type("Name", "Weir Mill");
        keep_mill("Ridge Mill");
        screen.settle();
        CHECK(screen.says("Ridge Mill is in the book meanwhile"));
        CHECK(screen.field_value("Name") == "Weir Mill");
        screen.click("Keep the mill");
        CHECK(window.app().plant().of(PlantKind::mill).size() == 2);
        CHECK(screen.offers("Keep the flour"));
    }
}

TEST_CASE("The demo is opened in the same window, in a file of its own") {
    FirstWindow window;
    window.screen().click("Look at the demo");
    CHECK_FALSE(window.screens().assistant.is_open);
    CHECK(window.app().lots().rows.size() >= 14);
    CHECK(window.screen().says("demo.mbook"));
    window.open_again(); // one's own again
    CHECK(window.screen().offers("Set up your plant"));
}
