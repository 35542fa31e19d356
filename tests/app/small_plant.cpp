#include "small_plant.h"

#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/plant_set_up.h"
#include "app/acts/runs.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "db/sqlite_connection.h"
#include "exchange/plant_file.h"
#include "support/catch.h"

#include <atomic>
#include <stdexcept>
#include <unistd.h>

namespace mellowbin::tests {
namespace {

constexpr const char* usual_plant = R"({
  "plant": "Small plant", "mills": ["Mill"],
  "flours": [{"name": "Strong white", "class": "white", "windows": [{"property": "protein", "low": 11.5, "high": 14}]}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Bay 2", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24, "room_c": 22, "tap_water_c": 15, "water_step_kg": 0.1}],
  "products": [
    {"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.8, "high": 13.4}],
     "maturity_target": 0.85, "most_lots": 3, "least_share": 0.1, "oxidant": "ascorbic_acid", "house_maximum_ppm": 60,
     "dough_temperature_c": 27, "batch_flour_kg": 100, "ingredients": [{"name": "Salt", "percent_of_flour": 2}]},
    {"name": "Plain loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.8, "high": 13.4}],
     "maturity_target": 0.85, "most_lots": 2, "least_share": 0.1, "batch_flour_kg": 100}
  ]})";

std::filesystem::path new_folder() {
    static std::atomic<int> count{0};
    const auto folder = std::filesystem::temp_directory_path() /
                        ("mellowbin-app-" + std::to_string(::getpid()) + "-" + std::to_string(count++));
    std::filesystem::create_directories(folder);
    return folder;
}

} // namespace

SmallPlant::SmallPlant(Day today) : SmallPlant(today, usual_plant) {}

SmallPlant::SmallPlant(Day today, const std::string& plant_file) : folder_(new_folder()), today_(today) {
    {
        SqliteConnection connection(folder_ / "book.mbook");
        const auto clock = app::Clock::standing_at(today);
        app::seed_law(connection, clock);
        const auto plant = exchange::read_plant_file(plant_file);
        REQUIRE(plant);
        REQUIRE(app::set_up_plant(connection, *plant, "test", clock));
    }
    open_again();
}

SmallPlant::~SmallPlant() {
    app_.reset();
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

void SmallPlant::open_again() {
    app_.reset();
    app_ = std::make_unique<app::App>(
        app::AppSetup{(folder_ / "book.mbook").string(), "Tomas", app::Clock::standing_at(today_)});
}

void SmallPlant::open_again_on(Day day) {
    today_ = day;
    open_again();
}

LotDraft SmallPlant::draft(const std::string& code) const {
    LotDraft draft;
    draft.code = code;
    draft.mill = "Mill";
    draft.flour = "Strong white";
    draft.place = "Bay 1";
    draft.milled_on = iso(today_ - Days{180});
    draft.delivered_on = iso(today_ - Days{175});
    draft.mass_kg = "1000";
    draft.bag_kg = "25";
    draft.figure(Property::moisture) = {Property::moisture, "14,0", "", "", ""};
    draft.figure(Property::protein) = {Property::protein, "12.5", "14 % moisture", "", ""};
    draft.figure(Property::absorption) = {Property::absorption, "60", "14 % moisture", "", ""};
    return draft;
}

LotId SmallPlant::released_lot(const LotDraft& draft) {
    app_->handle(app::TakeIn{{draft}});
    INFO(said() << refusals());
    REQUIRE(was_done());
    const LotId id = lot(draft.code);
    app_->handle(app::ReleaseLot{id, ""});
    REQUIRE(was_done());
    return id;
}

LotId SmallPlant::lot(const std::string& code) { return row(code).id; }

const app::LotRow& SmallPlant::row(const std::string& code) {
    for (const auto& r : app_->lots().rows)
        if (r.code == code)
            return r;
    throw std::runtime_error("no lot " + code);
}

RunId SmallPlant::add_run(const std::string& product, const std::string& day, const std::string& batches) {
    app_->handle(app::ShowPlan{today_, 28});
    app_->handle(app::AddRun{product, "Line 1", day, batches});
    INFO(said() << refusals());
    REQUIRE(was_done());
    RunId newest;
    for (const auto& run : app_->plan().runs)
        newest = std::max(newest, run.id);
    return newest;
}

void SmallPlant::plan_week() {
    app_->handle(app::PlanRuns{today_, 7});
    INFO(said() << refusals());
    REQUIRE(was_done());
    app_->finish_work();
    app_->handle(app::AdoptPlan{});
    INFO(said() << refusals() << app_->notice().details);
    REQUIRE(was_done());
}

const app::PlannedRun& SmallPlant::planned(RunId run) {
    for (const auto& r : app_->plan().runs)
        if (r.id == run)
            return r;
    throw std::runtime_error("the run is not on the plan shown");
}

std::string SmallPlant::refusals() {
    std::string words;
    for (const auto& r : app_->notice().refusals)
        words += in_words(r) + "\n";
    return words;
}

void SmallPlant::done(const app::Intent& intent) {
    app_->handle(intent);
    INFO(said() << refusals());
    REQUIRE(was_done());
}

std::string SmallPlant::refused(const app::Intent& intent) {
    app_->handle(intent);
    INFO(said());
    REQUIRE(was_refused());
    return refusals();
}

void SmallPlant::undo() {
    const auto acts = app_->notice().undoing;
    REQUIRE_FALSE(acts.empty());
    for (const auto& act : acts)
        done(act);
}

} // namespace mellowbin::tests
