#include "core/property.h"
#include "support/catch.h"
#include "ui/views/plant_window.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::PlantWindow;

namespace {

const WindowDraft* window_of(const PlantDraft& draft, Property property) {
    for (const auto& row : draft.windows)
        if (row.property == traits(property).name)
            return &row;
    return nullptr;
}

} // namespace

TEST_CASE("A property is added to a flour's specification, and taken away again") {
    PlantWindow at;
    at.open("Flours", "Strong white");
    CHECK(at.screen.value_of("Specification 1/Lowest") == "11.5");
    at.screen.click("Add a property");
    at.screen.click("Specification 2/Property/Property");
    at.screen.click("Ash");
    at.screen.type("Specification 2/Highest", "0,6");
    at.screen.click("Keep Strong white");
    INFO(at.refusals());
    const auto& kept = at.row(PlantKind::flour, "Strong white").draft;
    REQUIRE(kept.windows.size() == 2);
    REQUIRE(window_of(kept, Property::ash));
    CHECK(window_of(kept, Property::ash)->high == "0.6");
    CHECK(window_of(kept, Property::ash)->low.empty());
    const auto at_row = kept.windows[0].property == traits(Property::ash).name ? 1 : 2;
    at.put_away();
    at.screen.click("Specification " + std::to_string(at_row) + "/Take off");
    at.screen.click("Keep Strong white");
    CHECK(at.row(PlantKind::flour, "Strong white").draft.windows.size() == 1);
}

TEST_CASE("What cannot be of a list is refused at its row, by the member it is about") {
    PlantWindow at;
    at.open("Flours", "Strong white");
    at.screen.type("Specification 1/Lowest", "15");
    at.screen.press(ui::Key::tab);
    CHECK_FALSE(at.refusals().empty()); // above its highest
    at.screen.type("Specification 1/Lowest", "much");
    at.screen.press(ui::Key::tab);
    CHECK_THAT(at.refusals(), Contains("lowest: \"much\" was read"));
    at.screen.click("Keep Strong white");
    CHECK(at.plant.was_refused());
    CHECK(at.screen.value_of("Specification 1/Lowest") == "much");
}

TEST_CASE("An ingredient is refused at its own row, also with an empty row before it") {
    PlantWindow at;
    at.open("Products", "Pan bread");
    at.screen.click("Add an ingredient");
    at.screen.click("Add an ingredient");
    at.screen.type("Ingredient 3/Name", "Egg");
    at.screen.type("Ingredient 3/Amount", "12");
    at.screen.type("Ingredient 3/Water", "120");
    at.screen.press(ui::Key::tab);
    const auto refused = [&] {
        for (const auto& note : at.screen.probe().notes())
            if (note.kind == ui::Kind::refusal && note.label.find("water: 120 was read") != std::string::npos)
                return note.path;
        return std::string();
    };
    CHECK_THAT(refused(), Contains("Ingredient 3/"));
    at.screen.type("Ingredient 3/Water", "76");
    at.screen.click("Keep Pan bread");
    INFO(at.refusals());
    const auto& kept = at.row(PlantKind::product, "Pan bread").draft.ingredients;
    REQUIRE(kept.size() == 2); // a row without anything typed is none
    CHECK(kept[1] == IngredientDraft{"Egg", "12", "76", ""});
}

TEST_CASE("A usual ingredient's water is offered at its row and taken by its word") {
    PlantWindow at;
    at.open("Products", "Pan bread");
    const auto& usual = usual_ingredients().front();
    at.screen.click("Add an ingredient");
    at.screen.type("Ingredient 2/Name", usual.name);
    at.screen.type("Ingredient 2/Amount", "5");
    at.screen.resize(1280, 2400); // all of the form is in view
    at.screen.settle();
    CHECK(at.screen.says("% water"));
    at.screen.type("Ingredient 2/Water", "usual");
    at.screen.click("Keep Pan bread");
    INFO(at.refusals());
    const auto& kept = at.row(PlantKind::product, "Pan bread").draft.ingredients;
    REQUIRE(kept.size() == 2);
    CHECK(kept[1].water == fmt::format("{:g}", usual.water_percent));
}

TEST_CASE("A place's temperature from a day on is kept with its day") {
    PlantWindow at;
    at.open("Places", "Bay 1");
    at.screen.click("Add a day");
    at.screen.type("Climate 1/From", "2026-06-01");
    at.screen.type("Climate 1/Temperature", "23,5");
    at.screen.click("Keep Bay 1");
    INFO(at.refusals());
    const auto& kept = at.row(PlantKind::place, "Bay 1").draft.climate;
    REQUIRE(kept.size() == 1);
    CHECK(kept[0] == ClimateStepDraft{"2026-06-01", "23.5"});
}

TEST_CASE("A second flour has a share and a specification of its own") {
    PlantWindow at;
    at.screen.click("Flours");
    at.screen.click("Add a flour");
    at.screen.type("Fields/Name", "Rye");
    at.choose("Kind of flour", "Wholemeal");
    at.screen.click("Add the flour");
    at.open("Products", "Pan bread");
    at.choose("Second flour", "Rye");
    at.screen.type("Share of the second flour", "30");
    at.screen.click("Add a property of the second flour");
    at.screen.click("Second flour's specification 1/Property/Property");
    at.screen.click("Falling number");
    at.screen.type("Second flour's specification 1/Lowest", "120");
    at.screen.click("Keep Pan bread");
    INFO(at.refusals());
    const auto& kept = at.row(PlantKind::product, "Pan bread").draft;
    CHECK(kept.text("second_flour.flour") == "Rye");
    CHECK(kept.text("second_flour.share") == "30");
    REQUIRE(kept.second_windows.size() == 1);
    CHECK(kept.second_windows[0].low == "120");
}
