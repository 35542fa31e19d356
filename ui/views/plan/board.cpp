#include "ui/views/plan/board.h"

#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/views/plan/planned_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

/// What a card borrows until the board returns.
struct DrawnRun {
    explicit DrawnRun(const app::PlannedRun& run) : faults(faults_of(run)) {}
    std::string amount, remark;
    std::vector<std::string> labels, amounts, words;
    std::vector<CardShare> shares;
    std::vector<RunFault> faults;
    std::vector<CardFoot> feet;
};

CardPlace place_card(const app::PlannedRun& run, Day from) {
    return {.id = run.id.number(),
            .line = run.line,
            .day = static_cast<int>((run.day - from).count()),
            .shares = static_cast<int>(run.lots.size()),
            .feet = static_cast<int>(faults_of(run).size())};
}

void fill_shares(DrawnRun& drawn, const app::PlannedRun& run) {
    // Reserved first: what the shares borrow must not move.
    drawn.labels.reserve(run.lots.size());
    drawn.amounts.reserve(run.lots.size());
    drawn.words.reserve(run.lots.size());
    for (const auto& lot : run.lots) {
        const bool is_to_come = !lot.lot.is_known();
        drawn.labels.push_back(is_to_come ? lot.code + " to come" : lot.code);
        drawn.amounts.push_back(run.lots.size() > 1 || run.short_kg > 0 ? kilograms(std::round(lot.kg)) : "");
        drawn.words.push_back(lot.readiness ? std::string(app::in_words(*lot.readiness))
                                            : "mature " + percent(lot.maturity));
        drawn.shares.push_back({share_key(lot), drawn.labels.back(), drawn.amounts.back(), texture_of(lot),
                                drawn.words.back(), lot.is_locked, is_to_come});
    }
}

void fill_card(DrawnRun& drawn, const app::PlannedRun& run, Card& card) {
    drawn.amount = kilograms(run.need_kg) + " kg";
    drawn.remark = remark_of(run);
    fill_shares(drawn, run);
    for (const auto& fault : drawn.faults)
        drawn.feet.push_back({fault.words, fault.role});
    card.title = run.product;
    card.amount = drawn.amount;
    card.remark = drawn.remark;
    card.shares = drawn.shares;
    card.feet = drawn.feet;
    card.is_fixed = run.is_frozen || run.is_past;
    card.is_changed = run.is_changed;
}

/// "7 runs, 7 480 kg flour" of each line.
std::vector<std::string> notes_of_lines(const app::PlanModel& model) {
    std::vector<std::pair<std::size_t, double>> sums(model.lines.size());
    for (const auto& run : model.runs) {
        const auto line = static_cast<std::size_t>(run.line);
        if (line >= sums.size())
            continue;
        ++sums[line].first;
        sums[line].second += run.need_kg;
    }
    std::vector<std::string> notes;
    for (const auto& [runs, kg] : sums)
        notes.push_back(runs == 0
                            ? std::string("no runs")
                            : fmt::format("{}, {} kg flour", counted(runs, "run", "runs"), kilograms(kg)));
    return notes;
}

} // namespace

BoardAsked draw_plan_board(BoardState& state, const app::PlanModel& model, Tried tried, app::Intents& out) {
    std::deque<DrawnRun> drawn; // of the cards seen; none of them moves
    const std::vector<std::string_view> lines(model.lines.begin(), model.lines.end());
    const auto notes = notes_of_lines(model);
    const std::vector<std::string_view> line_notes(notes.begin(), notes.end());
    const auto place = [&](std::size_t i) { return place_card(model.runs[i], model.from); };
    const auto fill = [&](std::size_t i, Card& card) {
        views::fill_card(drawn.emplace_back(model.runs[i]), model.runs[i], card);
    };
    const auto told = [&](Carried what, DropPlace where) { return judge(model, tried, what, where); };
    const auto may_add = [&](BoardCell cell) { return model.from + Days{cell.day} >= model.today; };
    const auto events = board({.name = "Plan",
                               .lines = lines,
                               .line_notes = line_notes,
                               .first_day = model.from,
                               .days = model.days,
                               .today = model.today,
                               .cards = model.runs.size(),
                               .place_card = place,
                               .fill_card = fill,
                               .judge = told,
                               .may_add = may_add,
                               .when_empty = "No runs in these days. Press a day of a line to add one."},
                              state);
    if (events.lot && *events.lot > 0)
        out.emplace_back(app::OpenLot{LotId{*events.lot}});
    if (events.dropped)
        if (auto intent = intent_of(model, tried, events.dropped->what, events.dropped->where))
            out.push_back(std::move(*intent));
    return {events.selected, events.opened, events.added};
}

bool draw_plan_table(TableState& state, const app::PlanModel& model, app::Intents& out) {
    static constexpr std::array columns{
        Column{.head = "Day", .sample = "Wed 25 Nov", .sortable = false},
        Column{.head = "Line", .sample = "Line 1", .sortable = false},
        Column{.head = "Product", .sample = "Hearth loaf", .stretch = 1, .sortable = false},
        Column{.head = "Need", .unit = "kg", .sample = "12 000", .align = Align::right, .sortable = false},
        Column{.head = "Short", .unit = "kg", .sample = "12 000", .align = Align::right, .sortable = false},
        Column{.head = "State", .sample = "changed, fixed", .sortable = false},
        Column{.head = "Lots", .sample = "W24-118 800 kg", .stretch = 2, .sortable = false},
        Column{.head = "Strength", .sample = "with 12 mg/kg", .sortable = false},
        Column{.head = "Specification", .sample = "near the edge", .sortable = false},
        Column{.head = "Law", .sample = "nothing added", .sortable = false},
    };
    const auto record = [&](std::size_t i) { return model.runs[i].id.number(); };
    const auto write_row = [&](std::size_t i, RowWriter& cells) {
        const auto& run = model.runs[i];
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
        for (const auto& part : parts_of(run))
            cells.cell(part.words, part.role);
    };
    const auto events = table({.name = "Plan",
                               .columns = columns,
                               .rows = model.runs.size(),
                               .record = record,
                               .write_row = write_row,
                               .when_empty = "No runs in these days. Press a day on the board to add one.",
                               .density = Density::close},
                              state);
    if (events.opened && state.selected)
        out.emplace_back(app::OpenRun{RunId{*state.selected}});
    return events.selected;
}

} // namespace mellowbin::views
