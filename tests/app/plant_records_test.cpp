#include "app/acts/intake.h"
#include "app/acts/plant_records.h"
#include "app/acts/runs.h"
#include "app/acts/stock.h"
#include "app/book/setup.h"
#include "app/models/journal.h"
#include "app/models/plant.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const PlantRow& row(App& app, PlantKind kind, const std::string& name) {
    for (const auto& one : app.plant().of(kind))
        if (one.name == name)
            return one;
    throw std::runtime_error("the plant has no " + name);
}
bool has(App& app, PlantKind kind, const std::string& name) {
    const auto& rows = app.plant().of(kind);
    return std::any_of(rows.begin(), rows.end(), [&](const PlantRow& one) { return one.name == name; });
}

/// The record with one field typed over, and as the form began.
KeepPlantRecord changed(App& app, PlantKind kind, const std::string& name, const std::string& key,
                        const std::string& text) {
    const auto& one = row(app, kind, name);
    KeepPlantRecord act{one.record, one.draft, one.draft};
    act.draft.texts[key] = text;
    return act;
}

PlantDraft a_place(const std::string& name) {
    auto draft = blank_draft(PlantKind::place);
    draft.texts["name"] = name;
    draft.texts["kind"] = "Bay";
    draft.texts["air"] = name_of(Air::breathable_bag);
    return draft;
}

bool undo(App& app) {
    const auto undoing = app.notice().undoing;
    for (const auto& act : undoing)
        app.handle(act);
    return !undoing.empty() && app.notice().kind == Notice::Kind::done;
}

} // namespace

TEST_CASE("A record is added to the plant, told and written down, and taken off again by its undo") {
    SmallPlant plant;
    auto& app = plant.app();
    app.handle(KeepPlantRecord{{PlantKind::place, 0}, a_place("Loft")});
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    CHECK(plant.said() == "Place Loft added");
    CHECK(row(app, PlantKind::place, "Loft").draft.text("temperature_c") == "20");
    CHECK(app.journal(1).at(0).words == "Place Loft added");
    REQUIRE(undo(app));
    CHECK_FALSE(has(app, PlantKind::place, "Loft"));
    REQUIRE(undo(app)); // and added again
    CHECK(has(app, PlantKind::place, "Loft"));
}

TEST_CASE("A record that cannot be is refused at its fields, and nothing of it is kept") {
    SmallPlant plant;
    auto& app = plant.app();
    app.handle(KeepPlantRecord{{PlantKind::place, 0}, a_place("bay 1")});
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Name: \"bay 1\" is already in the book, as \"Bay 1\""));
    auto draft = a_place("");
    draft.texts["temperature_c"] = "warm";
    app.handle(KeepPlantRecord{{PlantKind::place, 0}, draft});
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Name: is empty") && Contains("Temperature: \"warm\" was read"));
    CHECK(app.plant().of(PlantKind::place).size() == 2);
    app.handle(KeepPlantRecord{{PlantKind::place, 99}, a_place("Loft")});
    CHECK(plant.was_refused());
}

TEST_CASE("A change says what was changed and which runs it touches, and its undo puts it back") {
    SmallPlant plant;
    auto& app = plant.app();
    plant.released_lot(plant.draft("W24-118"));
    plant.add_run("Pan bread", "2026-11-26", "3");
    app.handle(changed(app, PlantKind::product, "Pan bread", "batch_flour_kg", "120,5"));
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    CHECK_THAT(plant.said(), Contains("Flour of a batch 100 -> 120.5") && Contains("1 run") &&
                                 Contains("keep the flour they were planned with"));
    CHECK(row(app, PlantKind::product, "Pan bread").draft.text("batch_flour_kg") == "120.5");
    REQUIRE(undo(app));
    CHECK(row(app, PlantKind::product, "Pan bread").draft.text("batch_flour_kg") == "100");
    app.handle(changed(app, PlantKind::line, "Line 1", "tap_water_c", "12"));
    CHECK_THAT(plant.said(), Contains("Tap water 15 -> 12") && Contains("get their water anew"));
}

TEST_CASE("What two stations change of one record is both kept where it is not the same field") {
    SmallPlant plant;
    auto& app = plant.app();
    App office({plant.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    const auto mine = changed(app, PlantKind::line, "Line 1", "room_c", "25");
    office.handle(changed(office, PlantKind::line, "Line 1", "tap_water_c", "11"));
    REQUIRE(office.notice().kind == Notice::Kind::done);
    app.handle(mine);
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    const auto& line = row(app, PlantKind::line, "Line 1").draft;
    CHECK(line.text("room_c") == "25");
    CHECK(line.text("tap_water_c") == "11");
}

TEST_CASE("A field that both stations changed is refused, with who and what, and what is there stays") {
    SmallPlant plant;
    auto& app = plant.app();
    App office({plant.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    const auto mine = changed(app, PlantKind::line, "Line 1", "tap_water_c", "9");
    office.handle(changed(office, PlantKind::line, "Line 1", "tap_water_c", "11"));
    REQUIRE(office.notice().kind == Notice::Kind::done);
    app.handle(mine);
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Tap water: was changed meanwhile by") && Contains("Ines") &&
                                     Contains("it is 11 now, was 15"));
    CHECK(row(app, PlantKind::line, "Line 1").draft.text("tap_water_c") == "11");
}

TEST_CASE("A record is retired and brought back, each with its undo") {
    SmallPlant plant;
    auto& app = plant.app();
    const auto bay = row(app, PlantKind::place, "Bay 2").record;
    app.handle(RetirePlantRecord{bay});
    REQUIRE(plant.was_done());
    CHECK(row(app, PlantKind::place, "Bay 2").is_retired);
    app.handle(RetirePlantRecord{bay});
    CHECK(plant.was_refused());
    app.handle(RetirePlantRecord{bay, false});
    REQUIRE(plant.was_done());
    CHECK_FALSE(row(app, PlantKind::place, "Bay 2").is_retired);
    REQUIRE(undo(app));
    CHECK(row(app, PlantKind::place, "Bay 2").is_retired);
    REQUIRE(undo(app));
    CHECK_FALSE(row(app, PlantKind::place, "Bay 2").is_retired);
}

TEST_CASE("Nothing that stock, runs or products need is retired") {
    SmallPlant plant;
    auto& app = plant.app();
    plant.released_lot(plant.draft("W24-118"));
    plant.add_run("Pan bread", "2026-11-26", "3");
    const auto why = [&](PlantKind kind, const std::string& name) {
        app.handle(RetirePlantRecord{row(app, kind, name).record});
        return plant.was_refused() ? plant.refusals() : "";
    };
    CHECK_THAT(why(PlantKind::place, "Bay 1"), Contains("1000 kg of lot W24-118 lie there"));
    CHECK_THAT(why(PlantKind::flour, "Strong white"),
               Contains("Pan bread is made of it") && Contains("Plain loaf is made of it"));
    CHECK_THAT(why(PlantKind::line, "Line 1"), Contains("runs are planned"));
    CHECK_THAT(why(PlantKind::product, "Pan bread"), Contains("runs are planned"));
    CHECK(why(PlantKind::product, "Plain loaf").empty());
    CHECK(why(PlantKind::mill, "Mill").empty());
}

TEST_CASE("A record that is retired cannot be chosen for a lot, a run or a move") {
    SmallPlant plant;
    auto& app = plant.app();
    const auto lot = plant.released_lot(plant.draft("W24-118"));
    for (const auto& [kind, name] : {std::pair{PlantKind::mill, "Mill"}, std::pair{PlantKind::place, "Bay 2"},
                                     std::pair{PlantKind::product, "Plain loaf"}}) {
        app.handle(RetirePlantRecord{row(app, kind, name).record});
        REQUIRE(plant.was_done());
    }
    auto draft = plant.draft("W24-119");
    draft.place = "Bay 2";
    app.handle(TakeIn{{draft}});
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(),
               Contains("Mill: \"Mill\" is retired") && Contains("Place: \"Bay 2\" is retired"));
    app.handle(AddRun{"Plain loaf", "Line 1", "2026-11-26", "1"});
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Product: \"Plain loaf\" is retired"));
    const PlaceId from{row(app, PlantKind::place, "Bay 1").record.number};
    const PlaceId to{row(app, PlantKind::place, "Bay 2").record.number};
    app.handle(MoveLot{lot, from, to, "100"});
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("retired"));
}

TEST_CASE("Only a record that nothing names is taken off the plant") {
    SmallPlant plant;
    auto& app = plant.app();
    plant.released_lot(plant.draft("W24-118"));
    app.handle(RemovePlantRecord{row(app, PlantKind::place, "Bay 1").record});
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Retire it instead"));
    app.handle(RemovePlantRecord{row(app, PlantKind::place, "Bay 2").record});
    REQUIRE(plant.was_done());
    CHECK_FALSE(has(app, PlantKind::place, "Bay 2"));
    REQUIRE(undo(app));
    CHECK(has(app, PlantKind::place, "Bay 2"));
}
