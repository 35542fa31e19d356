// The mixer's card after a logged batch, and the levers of a run over 300 lots, on a book in memory: what a
// person waits for at the bowl. Beside the card stands the same card made from a book without any batch;
// beside the levers the same run with 30 lots to look at. "learn" is what a word on a batch costs the
// beliefs alone, "start" what they cost when the program starts.

#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/plant_set_up.h"
#include "app/acts/runs.h"
#include "app/acts/state.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/levers.h"
#include "db/sqlite_connection.h"
#include "dough/water_belief.h"
#include "exchange/plant_file.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <stdexcept>
#include <unistd.h>

namespace mellowbin::app {
namespace {

constexpr const char* plant_file = R"({
  "plant": "Bench", "mills": ["Mill"],
  "flours": [{"name": "Strong white", "class": "white", "windows": [{"property": "protein", "low": 11, "high": 14}]}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24, "room_c": 22, "tap_water_c": 15, "water_step_kg": 0.1}],
  "products": [
    {"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [{"property": "protein", "low": 11.0, "high": 14}, {"property": "absorption", "low": 57, "high": 65},
                 {"property": "falling_number", "low": 250, "high": 420}],
     "maturity_target": 0.9, "oxidant": "ascorbic_acid", "house_maximum_ppm": 60, "batch_flour_kg": 10}
  ]})";

const Day today{date::year{2026} / 11 / 25};

LotDraft draft(int number) {
    LotDraft lot;
    lot.code = fmt::format("W{:04}", number);
    lot.mill = "Mill";
    lot.flour = "Strong white";
    lot.place = "Bay 1";
    const int age = 10 + number % 120;
    lot.milled_on = iso(today - Days{age});
    lot.delivered_on = iso(today - Days{age - 3});
    lot.mass_kg = "2000";
    lot.bag_kg = "25";
    lot.price_per_tonne = std::to_string(380 + number % 50);
    lot.figure(Property::moisture) = {Property::moisture, "14", "", "", ""};
    lot.figure(Property::protein) = {Property::protein, fmt::format("{:.1f}", 11.8 + number % 15 * 0.1),
                                     "14 % moisture", "", ""};
    lot.figure(Property::absorption) = {Property::absorption, fmt::format("{:.1f}", 59 + number % 20 * 0.2),
                                        "14 % moisture", "", ""};
    lot.figure(Property::falling_number) = {Property::falling_number, "320", "", "", ""};
    return lot;
}

/// A book with so many released lots and a run of 200 small batches from the youngest of them.
class Bakery {
public:
    explicit Bakery(int lots)
        : path_(std::filesystem::temp_directory_path() /
                fmt::format("mellowbin-dough-bench-{}-{}.mbook", ::getpid(), lots)) {
        std::filesystem::remove(path_);
        {
            SqliteConnection connection(path_);
            const auto clock = Clock::standing_at(today);
            seed_law(connection, clock);
            if (!set_up_plant(connection, exchange::read_plant_file(plant_file).value(), "bench", clock))
                throw std::runtime_error("no plant");
        }
        app_ = std::make_unique<App>(AppSetup{path_.string(), "bench", Clock::standing_at(today)});
        TakeIn intake;
        for (int i = 0; i < lots; ++i)
            intake.lots.push_back(draft(i));
        act(intake);
        for (const auto& row : std::vector<LotRow>(app_->lots().rows))
            act(ReleaseLot{row.id, ""});
        act(ShowPlan{today, 7});
        act(AddRun{"Pan bread", "Line 1", iso(today), "200"});
        run = app_->plan().runs.front().id;
        act(GiveLot{app_->lots().rows.back().id, {}, run});
        // What a batch costs is wanted, not what a plan costs: the rest of the plan stays empty.
    }
    ~Bakery() {
        app_.reset();
        std::filesystem::remove(path_);
    }
    Bakery(const Bakery&) = delete;
    Bakery& operator=(const Bakery&) = delete;

    void act(const Intent& intent) {
        app_->handle(intent);
        const auto kind = app_->notice().kind;
        if (kind == Notice::Kind::refused || kind == Notice::Kind::failed)
            throw std::runtime_error(app_->notice().words + app_->notice().details);
    }
    [[nodiscard]] App& app() { return *app_; }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    RunId run;

private:
    std::filesystem::path path_;
    std::unique_ptr<App> app_;
};

Bakery& bakery_of(int lots) {
    static Bakery few(30);
    static Bakery many(300);
    return lots > 100 ? many : few;
}

void card_after_a_batch(benchmark::State& state) {
    auto& bakery = bakery_of(300);
    if (state.range(0) > 0 && bakery.app().card_of(bakery.run).logged.empty())
        for (int i = 0; i < state.range(0); ++i) {
            bakery.act(ConfirmBatch{bakery.run, {}, 0});
            const auto card = bakery.app().card_of(bakery.run);
            bakery.act(LogResult{card.logged.front().id, {"27", "", i % 3 ? "right" : "stiff", "8", "", ""}});
        }
    for (auto _ : state)
        benchmark::DoNotOptimize(bakery.app().card_of(bakery.run));
}
BENCHMARK(card_after_a_batch)->Arg(0)->Arg(150)->Unit(benchmark::kMicrosecond);

/// The beliefs hear of one word more on the newest batch of a book that has many: the open ones are taken in
/// again.
void learn_from_a_word(benchmark::State& state) {
    auto& bakery = bakery_of(300);
    const auto logged = bakery.app().card_of(bakery.run).logged;
    if (logged.empty()) {
        state.SkipWithError("no batch is logged: run the card's benchmark first");
        return;
    }
    SqliteConnection connection(bakery.path());
    const Book book = Book::read(connection, today);
    Doughs doughs;
    doughs.follow(connection, book);
    for (auto _ : state) {
        state.PauseTiming();
        bakery.act(LogResult{logged.front().id, {"27", "", "right", "8", "", ""}});
        state.ResumeTiming();
        doughs.follow(connection, book);
    }
}
BENCHMARK(learn_from_a_word)->Unit(benchmark::kMicrosecond);

/// A start: from the newest mark.
void start_from_a_mark(benchmark::State& state) {
    SqliteConnection connection(bakery_of(300).path());
    const Book book = Book::read(connection, today);
    for (auto _ : state) {
        Doughs doughs;
        doughs.follow(connection, book);
        benchmark::DoNotOptimize(doughs);
    }
}
BENCHMARK(start_from_a_mark)->Unit(benchmark::kMillisecond);

/// One word heard, of a dough of two lots, where so many lots are in stock.
void hear_a_word(benchmark::State& state) {
    const auto lots = static_cast<int>(state.range(0));
    const auto day = [](int after) { return Day{} + Days{20'000 + after}; };
    const auto word = [&](int lot, int product) {
        return dough::WaterSaid{ProductId{product + 1},
                                LineId{product % 2 + 1},
                                day(0),
                                {{LotId{lot % lots + 1}, 0.5}, {LotId{(lot + 7) % lots + 1}, 0.5}},
                                Absorption14{60},
                                Absorption14{62},
                                Feel::right};
    };
    dough::WaterBelief belief;
    for (int lot = 0; lot < lots; ++lot)
        for (int product = 0; product < 3; ++product)
            belief.observe(word(lot, product));
    int next = 0;
    for (auto _ : state) {
        belief.observe(word(next, next % 3));
        ++next;
    }
    state.counters["unknowns"] = static_cast<double>(belief.unknowns());
}
BENCHMARK(hear_a_word)->Arg(30)->Arg(94)->Arg(300)->Unit(benchmark::kMicrosecond);

void levers_over_lots(benchmark::State& state) {
    auto& bakery = bakery_of(static_cast<int>(state.range(0)));
    for (auto _ : state)
        benchmark::DoNotOptimize(bakery.app().levers_of(bakery.run));
}
BENCHMARK(levers_over_lots)->Arg(30)->Arg(300)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace mellowbin::app
