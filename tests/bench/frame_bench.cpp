#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/demo/first_start.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "support/iso.h"
#include "support/temporary_folder.h"
#include "ui/models/lots.h"
#include "ui/models/plan.h"
#include "ui/models/plant.h"
#include "ui/models/story.h"
#include "ui/shell/scan_reader.h"
#include "ui/shell/typed_keys.h"
#include "ui/views/screens.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>

/// CPU time of one frame of each screen over a book of 5,000 lots, without a window: everything a frame costs
/// before OpenGL draws it.
namespace {

using namespace mellowbin;
using views::Screen;

constexpr std::size_t lots = 5000;

struct BusyBook {
    app::Notice notice;
    app::Overview overview = test::a_busy_morning();
    app::IntakeModel intake = test::a_dock_with_a_file();
    app::LotsModel all_lots = test::many_rows(lots);
    app::ReadinessModel readiness = test::many_lots(lots);
    app::PlanModel plan = test::many_runs(100);
    app::MixerModel mixer = test::a_batch();
    app::PlantModel plant = test::a_plant();
    app::SettingsModel settings = test::some_settings();
    app::SettingUpModel setting_up;
    app::TracePage trace;
    views::Screens screens;
    app::Intents did;

    void draw() {
        views::draw(
            screens,
            {notice, overview, intake, all_lots, readiness, plan, mixer, plant, settings, setting_up, trace},
            did);
        did.clear();
    }
};

void frames(benchmark::State& state, BusyBook& book) {
    ui::Frame frame;
    const auto one = [&] {
        frame.begin();
        book.draw();
        frame.end();
    };
    for (int settling = 0; settling < 5; ++settling)
        one();
    for (auto _ : state)
        one();
}

void screen(benchmark::State& state, Screen which) {
    BusyBook book;
    book.screens.show(which);
    frames(state, book);
}

void lots_opened_and_sorted(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::lots);
    book.screens.lots.sorted_by = views::LotColumn::stock;
    book.screens.lots.filter = "white";
    book.all_lots.opened.emplace(test::a_sheet());
    frames(state, book);
}

/// The frame after a change of the book, when the rows are filtered and sorted anew.
void lots_sorted_anew(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::lots);
    book.screens.lots.sorted_by = views::LotColumn::mill;
    book.screens.lots.filter = "white";
    ui::Frame frame;
    for (auto _ : state) {
        ++book.all_lots.made;
        frame.begin();
        book.draw();
        frame.end();
    }
}

void readiness_as_table(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::readiness);
    book.screens.readiness.as_table = true;
    frames(state, book);
}

void readiness_opened(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::readiness);
    book.readiness.opened = test::a_story();
    frames(state, book);
}

/// The frame after each letter typed into the filter.
void readiness_chosen_anew(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::readiness);
    ui::Frame frame;
    for (auto _ : state) {
        auto& filter = book.screens.readiness.wish.filter;
        filter = filter.empty() ? "white" : "";
        frame.begin();
        book.draw();
        frame.end();
    }
}

std::size_t letters_in(const LotDraft& draft) {
    std::size_t letters = draft.code.size() + draft.mass_kg.size() + draft.bag_kg.size() +
                          draft.delivery_note.size() + draft.best_before.size() + draft.milled_on.size();
    for (const auto& figure : draft.figures)
        letters += figure.value.size();
    return letters;
}

/// The frame that shows a letter typed into a figure of a delivery's lot, which is read as it is typed;
/// beside the frame in which nothing is typed.
void letter_typed_at_the_dock(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::intake);
    ui::Frame frame({.probing = ui::Probing::on});
    const auto one = [&] {
        frame.begin();
        book.draw();
        frame.end();
    };
    for (int settling = 0; settling < 5; ++settling)
        one();
    const LotDraft& draft = book.screens.intake.delivery.at_hand().draft;
    for (auto _ : state) {
        const auto before = letters_in(draft);
        frame.typed("7");
        one();
        if (letters_in(draft) != before + 1)
            state.SkipWithError("a letter was typed, and the next frame does not have it");
    }
}

/// From a scan's last key to the frame that shows the form filled from it: through the reader of scans, the
/// screens, the application on a book, and the screens again. Goal: a frame, 16.7 ms.
void scan_to_the_filled_form(benchmark::State& state) {
    const tests::TemporaryFolder folder;
    app::FirstStart start(
        {(folder / "plant.mbook").string(), "Ada", app::Clock::standing_at(day_from_iso("2026-11-25"))});
    start.look_at_demo();
    app::App& app = *start.app();
    views::Screens screens;
    ui::Frame frame;
    ui::ScanReader reader;
    const auto one = [&] {
        app.poll();
        app::Intents did;
        frame.begin();
        views::draw(screens,
                    {app.notice(), app.overview(), app.intake(), app.lots(), app.readiness(), app.plan(),
                     app.mixer(), app.plant(), app.settings(), app.setting_up(), app.trace()},
                    did);
        frame.end();
        for (const auto& act : did)
            app.handle(act);
    };
    for (int settling = 0; settling < 5; ++settling)
        one();
    test::Keys keys;
    for (int pallet = 0; auto _ : state) {
        state.PauseTiming();
        const auto code = fmt::format("FL-{:06}", ++pallet);
        keys.strokes.clear();
        keys.wait(1).type("]C1010952123454321310" + code + "\x1d" + "15270531", 0.008);
        keys.wait(0.008).press(test::enter_key);
        state.ResumeTiming();
        for (const auto& stroke : keys.strokes)
            reader.hear(stroke);
        for (auto& scan : reader.take_scans())
            screens.scanned({std::move(scan.bytes)});
        one(); // it is read
        one(); // and seen
        state.PauseTiming();
        auto& delivery = screens.intake.delivery;
        if (delivery.at_hand().draft.code != code || delivery.at_hand().draft.best_before != "2027-05-31")
            state.SkipWithError("a label was scanned, and the form is not filled from it");
        delivery.take_out({delivery.at_hand().number}); // each finds the form of an empty dock
        state.ResumeTiming();
    }
}

void plan_with_a_run_chosen(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::plan);
    book.screens.plan.choose(1);
    frames(state, book);
}

/// The longest form, with something typed in it, which is read anew in every frame.
void plant_with_a_product_opened(benchmark::State& state) {
    BusyBook book;
    book.screens.show(Screen::plant);
    auto& view = book.screens.plant;
    const auto& row = book.plant.of(PlantKind::product).front();
    view.show(row.record);
    auto typed = row.draft;
    typed.texts["mixing_minutes"] = "9,5";
    view.records.form.drafts[row.record] = {typed, row.draft};
    view.records.gone_through[row.record].all = true;
    frames(state, book);
}

/// 1,200 runs of 400 lots over four weeks, with a proposal that moves 300 of them.
void large_plan(benchmark::State& state, int page) {
    BusyBook book;
    book.plan = test::a_large_plan();
    book.screens.show(Screen::plan);
    book.screens.plan.page = page;
    book.screens.plan.choose(601);
    frames(state, book);
}

/// A run of it carried over the board: every frame finds its place anew.
void large_plan_carried(benchmark::State& state) {
    BusyBook book;
    book.plan = test::a_large_plan();
    book.screens.show(Screen::plan);
    book.screens.plan.choose(601);
    book.screens.plan.board.pick_up({601, {}});
    frames(state, book);
}

BENCHMARK_CAPTURE(screen, intake, Screen::intake)->Unit(benchmark::kMillisecond);
BENCHMARK(scan_to_the_filled_form)->Unit(benchmark::kMillisecond)->Iterations(500);
BENCHMARK(letter_typed_at_the_dock)->Unit(benchmark::kMillisecond)->Iterations(500);
BENCHMARK_CAPTURE(screen, lots, Screen::lots)->Unit(benchmark::kMillisecond);
BENCHMARK(lots_opened_and_sorted)->Unit(benchmark::kMillisecond);
BENCHMARK(lots_sorted_anew)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(screen, readiness, Screen::readiness)->Unit(benchmark::kMillisecond);
BENCHMARK(readiness_as_table)->Unit(benchmark::kMillisecond);
BENCHMARK(readiness_opened)->Unit(benchmark::kMillisecond);
BENCHMARK(readiness_chosen_anew)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(screen, plan, Screen::plan)->Unit(benchmark::kMillisecond);
BENCHMARK(plan_with_a_run_chosen)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(large_plan, board, views::PlanView::board_page)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(large_plan, compared, views::PlanView::comparison_page)->Unit(benchmark::kMillisecond);
BENCHMARK(large_plan_carried)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(screen, mixer, Screen::mixer)->Unit(benchmark::kMillisecond);
BENCHMARK(plant_with_a_product_opened)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(screen, settings, Screen::settings)->Unit(benchmark::kMillisecond);

} // namespace
