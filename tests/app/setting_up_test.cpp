#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/lots.h"
#include "app/acts/plant_records.h"
#include "app/acts/settings.h"
#include "app/book/setup.h"
#include "app/models/setting_up.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using tests::SmallPlant;

namespace {

const Day wednesday = day_from_iso("2026-11-25");

App on_a_new_book() { return App({":memory:", "Ada", Clock::standing_at(wednesday)}); }

void keep(App& app, PlantDraft draft, std::initializer_list<std::pair<const char*, const char*>> texts) {
    for (const auto& [key, text] : texts)
        draft.texts[key] = text;
    app.handle(KeepPlantRecord{{draft.kind, 0}, draft});
    INFO(app.notice().words);
    REQUIRE(app.notice().kind == Notice::Kind::done);
}

} // namespace

TEST_CASE("The book says which step of setting up is next, and what the steps before it hold") {
    auto app = on_a_new_book();
    const auto& model = [&]() -> const SettingUpModel& { return app.setting_up(); };
    CHECK(model().is_untouched);
    CHECK(model().next == SetUpStep::plant);
    app.handle(ChangeSetting{"plant", "Corner bakery"});
    CHECK_FALSE(model().is_untouched);
    CHECK(model().next == SetUpStep::mill);
    CHECK(model().of(SetUpStep::plant).words == "Corner bakery");
    keep(app, blank_draft(PlantKind::place), {{"name", "Bay 1"}, {"kind", "bay"}, {"air", "breathable_bag"}});
    CHECK(model().next == SetUpStep::mill); // in whatever order they come
    CHECK(model().of(SetUpStep::place).is_done);
    keep(app, blank_draft(PlantKind::mill), {{"name", "Weir Mill"}});
    keep(app, blank_draft(PlantKind::mill), {{"name", "Ridge Mill"}});
    CHECK(model().of(SetUpStep::mill).words == "Weir Mill and 1 more");
    CHECK(model().next == SetUpStep::flour);
    keep(app, blank_draft(PlantKind::flour), {{"name", "Strong white"}, {"class", "white"}});
    CHECK(model().next == SetUpStep::line);
    REQUIRE(model().of(PlantKind::flour));
    CHECK(model().of(PlantKind::flour)->draft.text("name") == "Strong white");
}

TEST_CASE("A record that is retired or taken off is to be set up again") {
    auto app = on_a_new_book();
    app.handle(ChangeSetting{"plant", "Corner bakery"});
    keep(app, blank_draft(PlantKind::mill), {{"name", "Weir Mill"}});
    CHECK(app.setting_up().next == SetUpStep::flour);
    const auto undoing = app.notice().undoing;
    app.handle(undoing.at(0));
    CHECK(app.setting_up().next == SetUpStep::mill);
}

TEST_CASE("A first lot leads over its release and a run with its flour to the card") {
    SmallPlant plant;
    auto& app = plant.app();
    const auto next = [&] { return app.setting_up().next; };
    CHECK(next() == SetUpStep::lot);
    app.handle(TakeIn{{plant.draft("W24-118")}});
    REQUIRE(plant.was_done());
    CHECK(next() == SetUpStep::release);
    REQUIRE(app.setting_up().lot);
    CHECK(app.setting_up().lot->code == "W24-118");
    CHECK_FALSE(app.setting_up().lot->findings.empty());
    app.handle(HoldLot{app.setting_up().lot->id, "the label is torn"});
    CHECK(next() == SetUpStep::release);
    CHECK(app.setting_up().lot->reason == "the label is torn");
    app.handle(ReleaseLot{app.setting_up().lot->id, "looked at"});
    CHECK(next() == SetUpStep::run);
    const auto run = plant.add_run("Pan bread", "2026-11-26", "1");
    CHECK(next() == SetUpStep::run); // it has no flour yet
    REQUIRE(app.setting_up().run);
    CHECK_FALSE(app.setting_up().run->has_flour);
    app.handle(GiveLot{app.setting_up().lot->id, {}, run});
    REQUIRE(plant.was_done());
    CHECK(next() == SetUpStep::card);
    CHECK(app.setting_up().run->id == run);
    CHECK_FALSE(app.setting_up().is_offered);
    plant.open_again();
    CHECK(plant.app().setting_up().next == SetUpStep::card);
}

TEST_CASE("A lot that was rejected is no first lot, and a plant that planned once needs no first run") {
    SmallPlant plant;
    auto& app = plant.app();
    app.handle(TakeIn{{plant.draft("W24-118")}});
    app.handle(RejectLot{plant.lot("W24-118"), "insects"});
    CHECK(app.setting_up().next == SetUpStep::lot);
    plant.released_lot(plant.draft("W24-119"));
    plant.add_run("Pan bread", "2026-11-26", "1");
    CHECK(app.setting_up().next == SetUpStep::run);
    plant.open_again_on(day_from_iso("2027-03-01"));
    CHECK(plant.app().setting_up().of(SetUpStep::run).is_done);
}

TEST_CASE("What another station sets up is done here at the next frame") {
    SmallPlant plant;
    App office({plant.book_path(), "Ines", Clock::standing_at(wednesday)});
    office.handle(TakeIn{{plant.draft("W24-118")}});
    CHECK(plant.app().setting_up().next == SetUpStep::lot);
    plant.app().poll();
    CHECK(plant.app().setting_up().next == SetUpStep::release);
}
