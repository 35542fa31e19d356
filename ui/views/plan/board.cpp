#include "ui/views/plan/board.h"

#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/day_words.h"
#include "ui/views/plan/planned_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <deque>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

/// What a card borrows until the board returns.
struct DrawnRun {
    explicit DrawnRun(const app::PlannedRun& run) : gauges(run) {}
    std::string amount, shortage, remark;
    std::vector<std::string> labels;
    std::vector<CardShare> shares;
    RunGauges gauges;
};

std::string remark_of(const app::PlannedRun& run) {
    if (run.is_changed)
        return run.is_frozen ? "changed, frozen" : "changed";
    if (run.is_past)
        return "past";
    return run.is_frozen ? "frozen" : "";
}

CardPlace place_card(const app::PlannedRun& run, Day from) {
    return {.id = run.id.number(),
            .line = run.line,
            .day = static_cast<int>((run.day - from).count()),
            .has_shares = !run.lots.empty(),
            .has_remark = run.is_changed || run.is_past || run.is_frozen,
            .is_short = run.short_kg > 0,
            .gauges = 3};
}

void fill_shares(DrawnRun& drawn, const app::PlannedRun& run) {
    drawn.labels.reserve(run.lots.size());
    for (const auto& lot : run.lots) {
        const bool is_to_come = !lot.lot.is_known();
        drawn.labels.push_back(is_to_come ? lot.code + " to come" : lot.code);
        drawn.shares.push_back(
            {share_key(lot), drawn.labels.back(), lot.kg, lot.maturity, lot.is_locked, is_to_come});
    }
}

void fill_card(DrawnRun& drawn, const app::PlannedRun& run, Card& card) {
    drawn.amount = kilograms(run.need_kg) + " kg";
    if (run.short_kg > 0)
        drawn.shortage = fmt::format("short {} kg", kilograms(run.short_kg));
    drawn.remark = remark_of(run);
    fill_shares(drawn, run);
    card.title = run.product;
    card.amount = drawn.amount;
    card.shares = drawn.shares;
    card.gauges = drawn.gauges.gauges;
    card.remark = drawn.remark;
    card.shortage = drawn.shortage;
    card.is_locked =
        std::any_of(run.lots.begin(), run.lots.end(), [](const auto& lot) { return lot.is_locked; });
    card.is_frozen = run.is_frozen || run.is_past;
    card.is_changed = run.is_changed;
}

} // namespace

bool draw_plan_board(BoardState& state, const app::PlanModel& model, Tried tried, app::Intents& out) {
    std::deque<DrawnRun> drawn; // of the cards seen; none of them moves
    const std::vector<std::string_view> lines(model.lines.begin(), model.lines.end());
    const auto place = [&](std::size_t i) { return place_card(model.runs[i], model.from); };
    const auto fill = [&](std::size_t i, Card& card) {
        views::fill_card(drawn.emplace_back(model.runs[i]), model.runs[i], card);
    };
    const auto told = [&](Carried what, DropPlace where) { return judge(model, tried, what, where); };
    const auto events = board({.name = "Plan",
                               .lines = lines,
                               .first_day = model.from,
                               .days = model.days,
                               .today = model.today,
                               .cards = model.runs.size(),
                               .place_card = place,
                               .fill_card = fill,
                               .judge = told,
                               .when_empty = "No runs in these days. Add one with New run."},
                              state);
    if (events.opened && state.selected)
        out.emplace_back(app::OpenRun{RunId{*state.selected}});
    if (events.lot && *events.lot > 0)
        out.emplace_back(app::OpenLot{LotId{*events.lot}});
    if (events.dropped)
        if (auto intent = intent_of(model, tried, events.dropped->what, events.dropped->where))
            out.push_back(std::move(*intent));
    return events.selected;
}

bool draw_plan_table(TableState& state, const app::PlanModel& model, app::Intents& out) {
    static constexpr std::array columns{
        Column{.head = "Day", .sample = "Wed 25 Nov", .sortable = false},
        Column{.head = "Line", .sample = "Line 1", .sortable = false},
        Column{.head = "Product", .sample = "Hearth loaf", .stretch = 1, .sortable = false},
        Column{.head = "Need", .unit = "kg", .sample = "12 000", .align = Align::right, .sortable = false},
        Column{.head = "Short", .unit = "kg", .sample = "12 000", .align = Align::right, .sortable = false},
        Column{.head = "State", .sample = "changed, frozen", .sortable = false},
        Column{.head = "Lots", .sample = "W24-118 800 kg", .stretch = 2, .sortable = false},
        Column{.head = "Strength", .sample = "with 12 mg/kg", .sortable = false},
        Column{.head = "Specification", .sample = "near the edge", .sortable = false},
        Column{.head = "Law", .sample = "nothing added", .sortable = false},
    };
    const auto record = [&](std::size_t i) { return model.runs[i].id.number(); };
    const auto write_row = [&](std::size_t i, RowWriter& cells) {
        const auto& run = model.runs[i];
        const RunGauges told(run);
        cells.cell(short_day(run.day));
        cells.cell(line_of(run, model));
        cells.cell(run.product);
        cells.cell(kilograms(run.need_kg));
        if (run.short_kg > 0)
            cells.cell(kilograms(run.short_kg), Role::stop);
        else
            cells.empty();
        const auto remark = remark_of(run);
        cells.cell(remark.empty() ? "open" : remark, remark.empty() ? Role::quiet : Role::ink);
        cells.cell(lots_in_words(run));
        for (const auto& gauge : told.gauges)
            cells.cell(gauge.words, gauge.role);
    };
    const auto events = table({.name = "Plan",
                               .columns = columns,
                               .rows = model.runs.size(),
                               .record = record,
                               .write_row = write_row,
                               .when_empty = "No runs in these days. Add one with New run.",
                               .density = Density::close},
                              state);
    if (events.opened && state.selected)
        out.emplace_back(app::OpenRun{RunId{*state.selected}});
    return events.selected;
}

} // namespace mellowbin::views
