#include "app/acts/ingredients.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

struct DoughsShown : WholeWindow {
    DoughsShown() : WholeWindow(Screen::settings) { screen.click("Doughs"); }
};

} // namespace

TEST_CASE("The page of doughs shows what goes into the product chosen, and the water that comes of it") {
    DoughsShown o;
    CHECK(o.screen.value_of("Ingredients/2/Ingredient") == "Whole egg");
    CHECK(o.screen.value_of("Ingredients/2/Amount") == "12");
    CHECK(o.screen.value_of("Ingredients/2/Water in it") == "76.2");
    CHECK(o.screen.value_of("Ingredients/2/Goes in at") == "4.0");
    CHECK(o.screen.says("The ingredients bring 9.1 % of water on the flour; so much less is poured"));
    o.screen.click("Product/Hearth loaf");
    CHECK(o.screen.value_of("Ingredients/1/Ingredient") == "Salt");
    CHECK_FALSE(o.screen.says("The ingredients bring 9.1 %"));
}

TEST_CASE(
    "An ingredient is changed, one added by its ready figure, one taken off, and all of them kept as typed") {
    DoughsShown o;
    auto& screen = o.screen;
    CHECK_FALSE(screen.is_enabled("Keep these ingredients"));
    CHECK(screen.says("nothing was changed"));
    screen.type("Ingredients/2/Amount", "14,5");
    screen.click("Ready figure/Honey");
    CHECK(screen.says(
        "Honey: 17.1 % water (15 to 20). a table of foods; read. Your supplier's figure goes before it."));
    screen.click("Take the figure");
    screen.type("Ingredients/3/Amount", "5");
    screen.click("Ingredients/1/Take off");
    screen.click("Keep these ingredients");
    CHECK(o.last<app::ChangeIngredients>().product == "Pan bread");
    CHECK(o.last<app::ChangeIngredients>().rows ==
          std::vector<IngredientDraft>{{"Whole egg", "14,5", "76.2", "4.0"}, {"Honey", "5", "17.1", ""}});
}

TEST_CASE("A ready figure goes into the row of its name, where there is one") {
    DoughsShown o;
    o.screen.type("Ingredients/2/Water in it", "");
    o.screen.click("Ready figure/Whole egg");
    o.screen.click("Take the figure");
    CHECK(o.screen.value_of("Ingredients/2/Water in it") == "76.2");
    CHECK_FALSE(o.screen.offers("Ingredients/3/Take off"));
}

TEST_CASE("Refused ingredients stay as typed with every reason, also beside a look at another product") {
    DoughsShown o;
    auto& screen = o.screen;
    screen.click("Add an ingredient");
    screen.type("Ingredients/3/Water in it", "120");
    screen.press(ui::Key::enter);
    CHECK(o.last<app::ChangeIngredients>().rows.size() == 3);
    o.tell(test::refused(1, {{"Ingredient 3", "has no name", "Enter what it is called"},
                             {"Ingredient 3, water", "120 was read; 0 to 100 % is expected", ""}}));
    CHECK(screen.says("Ingredient 3: has no name. Enter what it is called"));
    CHECK(screen.says("Ingredient 3, water: 120 was read; 0 to 100 % is expected"));
    screen.click("Product/Hearth loaf");
    CHECK_FALSE(screen.says("has no name"));
    screen.click("Product/Pan bread");
    CHECK(screen.value_of("Ingredients/3/Water in it") == "120");
    CHECK(screen.says("Ingredient 3: has no name. Enter what it is called"));
    o.tell({}); // what was refused lies over the lower edge for a while
    screen.click("As before");
    CHECK_FALSE(screen.offers("Ingredients/3/Take off"));
    CHECK_FALSE(screen.says("has no name"));
}

TEST_CASE("Ingredients that are kept stand as the book has them") {
    DoughsShown o;
    o.screen.type("Ingredients/1/Amount", "2,2");
    o.screen.press(ui::Key::enter);
    o.settings.doughs.doughs[0].ingredients[0].percent = "2.2";
    o.tell(test::done(1, "Pan bread: Salt 2.2 %"));
    CHECK(o.screen.value_of("Ingredients/1/Amount") == "2.2");
    CHECK_FALSE(o.screen.is_enabled("Keep these ingredients"));
}

TEST_CASE("A failure keeps what was typed of the ingredients") {
    DoughsShown o;
    o.screen.type("Ingredients/1/Amount", "2,2");
    o.screen.press(ui::Key::enter);
    o.tell(test::failed(1));
    CHECK(o.screen.value_of("Ingredients/1/Amount") == "2,2");
}

TEST_CASE("A plant without products says so on the page of doughs") {
    DoughsShown o;
    o.settings.doughs.doughs.clear();
    o.screen.settle();
    CHECK(o.screen.says("The plant has no products yet."));
}
