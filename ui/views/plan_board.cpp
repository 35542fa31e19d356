#include "ui/views/plan_board.h"

#include "ui/views/plan_words.h"
#include "ui/views/planned_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {

using namespace ui;

bool draw_plan_board(BoardState& state, const app::PlanModel& model, app::Intents& out) {
    // Cards borrow what they show until the board returns, so it is kept for all of them.
    struct Drawn {
        std::string amount, shortage;
        std::vector<CardShare> shares;
        std::optional<RunGauges> gauges;
    };
    std::vector<Drawn> drawn(model.runs.size());
    const std::vector<std::string_view> lines(model.lines.begin(), model.lines.end());
    const auto fill_card = [&](std::size_t i, Card& card) {
        const auto& run = model.runs[i];
        auto& kept = drawn[i];
        kept.amount = kilograms(run.need_kg) + " kg";
        if (run.short_kg > 0)
            kept.shortage = fmt::format("short {} kg", kilograms(run.short_kg));
        kept.shares.clear();
        for (const auto& lot : run.lots)
            kept.shares.push_back({lot.lot.number(), lot.code, lot.kg});
        kept.gauges.emplace(run);
        card.id = run.id.number();
        card.line = run.line;
        card.day = static_cast<int>((run.day - model.from).count());
        card.title = run.product;
        card.amount = kept.amount;
        card.shares = kept.shares;
        card.gauges = kept.gauges->gauges;
        card.shortage = kept.shortage;
        card.is_locked =
            std::any_of(run.lots.begin(), run.lots.end(), [](const auto& lot) { return lot.is_locked; });
    };
    const auto events = board({.name = "Plan",
                               .lines = lines,
                               .first_day = model.from,
                               .days = model.days,
                               .today = model.today,
                               .cards = model.runs.size(),
                               .fill_card = fill_card,
                               .when_empty = "No runs in these days. Add one with New run."},
                              state);
    if (events.opened && state.selected)
        out.emplace_back(app::OpenRun{RunId{*state.selected}});
    if (events.lot)
        out.emplace_back(app::OpenLot{LotId{*events.lot}});
    return events.selected;
}

bool draw_plan_table(TableState& state, const app::PlanModel& model, app::Intents& out) {
    static constexpr std::array columns{
        Column{.head = "Day", .sample = "Wed 25 Nov", .sortable = false},
        Column{.head = "Line", .sample = "Line 1", .sortable = false},
        Column{.head = "Product", .sample = "Hearth loaf", .stretch = 1, .sortable = false},
        Column{.head = "Need", .unit = "kg", .sample = "12 000", .align = Align::right, .sortable = false},
        Column{.head = "Short", .unit = "kg", .sample = "12 000", .align = Align::right, .sortable = false},
        Column{.head = "Lots", .sample = "W24-118 800 kg", .stretch = 2, .sortable = false},
        Column{.head = "Strength", .sample = "with 12 mg/kg", .sortable = false},
        Column{.head = "Windows", .sample = "near the edge", .sortable = false},
        Column{.head = "Law", .sample = "nothing added", .sortable = false},
    };
    const auto record = [&](std::size_t i) { return model.runs[i].id.number(); };
    const auto write_row = [&](std::size_t i, RowWriter& cells) {
        const auto& run = model.runs[i];
        const RunGauges told(run);
        const auto line = static_cast<std::size_t>(run.line);
        cells.cell(short_day(run.day));
        cells.cell(line < model.lines.size() ? model.lines[line] : "");
        cells.cell(run.product);
        cells.cell(kilograms(run.need_kg));
        if (run.short_kg > 0)
            cells.cell(kilograms(run.short_kg), Role::stop);
        else
            cells.empty();
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
