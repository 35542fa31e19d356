#include "ui/views/lots/view.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::array<std::string_view, 2> lists{"Now", "Past"};

void write_cell(const app::LotRow& row, LotColumn column, ui::RowWriter& cells) {
    const auto number = [&](std::optional<double> value, int decimals) {
        if (value)
            cells.cell(number_words(value, decimals));
        else
            cells.empty();
    };
    switch (column) {
    case LotColumn::code:
        if (row.changed.empty())
            return cells.cell(row.code);
        return cells.cell(fmt::format("{} · {}", row.code, row.changed), Role::mind);
    case LotColumn::mill:
        return cells.cell(row.mill);
    case LotColumn::flour:
        return cells.cell(row.flour);
    case LotColumn::state:
        return cells.cell(name_of(row.state), role_of(row.state));
    case LotColumn::stock:
        return cells.cell(kilograms(row.stock_kg));
    case LotColumn::place:
        return cells.cell(row.places.empty() ? "–" : row.places);
    case LotColumn::protein:
        return number(row.protein_14, 1);
    case LotColumn::absorption:
        return number(row.absorption_14, 1);
    case LotColumn::falling_number:
        return number(row.falling_number_s, 0);
    case LotColumn::moisture:
        return number(row.moisture, 1);
    case LotColumn::readiness:
        return cells.cell(app::in_words(row.readiness), role_of(row.readiness));
    case LotColumn::ready_on:
        return cells.cell(day_words(row.ready_on));
    case LotColumn::past_best_on:
        return cells.cell(day_words(row.past_best_on));
    }
}

/// The table's sort names a column by its place among those shown; ours by what it is.
int place_of(std::span<const LotColumn> shown, std::optional<LotColumn> column) {
    const auto at = std::find(shown.begin(), shown.end(), column);
    return at == shown.end() ? -1 : static_cast<int>(at - shown.begin());
}

void open_lot(LotsView& view, const ui::TableState& table, app::Intents& out) {
    if (!table.selected)
        return;
    view.shows_sheet = true;
    out.emplace_back(app::OpenLot{LotId{*table.selected}});
}

const std::vector<std::uint32_t>& sorted_rows(LotsView& view, const app::LotsModel& model) {
    const int by = view.sorted_by ? static_cast<int>(*view.sorted_by) : -1;
    return view.sorted.rows(model.rows, {view.filter, by, view.table.sort.direction, model.made});
}

void lot_table(LotsView& view, const app::LotsModel& model, bool is_beside_sheet, app::Intents& out) {
    std::vector<LotColumn> shown;
    for (const auto column : is_beside_sheet ? lot_columns_beside_sheet() : all_lot_columns())
        if (is_beside_sheet || !view.left_out.contains(column))
            shown.push_back(column);
    std::vector<ui::Column> columns;
    for (const auto column : shown)
        columns.push_back(column_of(column));
    view.table.sort.column = place_of(shown, view.sorted_by);
    const auto& rows = sorted_rows(view, model);

    const auto record = [&](std::size_t i) { return model.rows[rows[i]].id.number(); };
    const auto write = [&](std::size_t i, ui::RowWriter& cells) {
        const auto& row = model.rows[rows[i]];
        for (const auto column : shown)
            write_cell(row, column, cells);
        if (row.state == LotState::used_up || row.state == LotState::rejected)
            cells.dim();
    };
    const auto nothing_found =
        fmt::format("No lot has all of \"{}\" in its words. Empty the filter to see all.", view.filter);
    const auto events =
        ui::table({.name = "Lots",
                   .columns = columns,
                   .rows = rows.size(),
                   .record = record,
                   .write_row = write,
                   .when_empty = model.rows.empty()
                                     ? std::string_view("No lots yet. Take in a delivery on Intake (F1).")
                                     : nothing_found,
                   .density = ui::Density::close},
                  view.table);
    if (events.sort_changed && view.table.sort.column < 0)
        view.sorted_by.reset();
    else if (events.sort_changed)
        view.sorted_by = shown[static_cast<std::size_t>(view.table.sort.column)];
    if (events.selected || events.opened)
        open_lot(view, view.table, out);
}

void column_ticks(LotsView& view) {
    ui::panel("Columns", [&] {
        ui::grid(10_em, [&] {
            for (const auto column : all_lot_columns()) {
                bool is_shown = !view.left_out.contains(column);
                const std::string_view blocked = column == LotColumn::code ? "names the row" : "";
                if (!ui::tick(column_of(column).head, is_shown, {.blocked = blocked}))
                    continue;
                if (is_shown)
                    view.left_out.erase(column);
                else
                    view.left_out.insert(column);
            }
        });
        if (ui::button("Close columns", {.kind = ui::ButtonKind::quiet}))
            view.chooses_columns = false;
    });
}

void table_side(LotsView& view, const app::LotsModel& model, bool is_beside_sheet, app::Intents& out) {
    const auto choice_of_list = [&] {
        ui::pages({.label = "Lots of", .label_place = ui::LabelPlace::hidden}, lists, view.list);
    };
    if (view.list != LotsView::now) {
        if (draw(view.past, model.past, choice_of_list, is_beside_sheet, out))
            open_lot(view, view.past.table, out);
        return;
    }
    leave(view.past, out);
    ui::flow([&] {
        choice_of_list();
        ui::search_field({.label = "Show only",
                          .hint = "lot, mill, flour, state, place",
                          .width = 18_em,
                          .label_place = ui::LabelPlace::left,
                          .enter = ui::Enter::entered},
                         view.filter);
        const auto count = sorted_rows(view, model).size();
        ui::text(view.filter.empty()
                     ? counted(count, "lot", "lots")
                     : fmt::format("{} of {}", count, counted(model.rows.size(), "lot", "lots")),
                 {.role = Role::quiet});
        if (!is_beside_sheet && !view.chooses_columns &&
            ui::button("Choose columns", {.kind = ui::ButtonKind::quiet}))
            view.chooses_columns = true;
    });
    if (view.chooses_columns && !is_beside_sheet)
        column_ticks(view);
    lot_table(view, model, is_beside_sheet, out);
}

/// A lot opened elsewhere (a search, a scan) is chosen in the table, too.
void follow_opened(LotsView& view, const app::LotsModel& model) {
    const auto opened = model.opened ? model.opened->row.id : LotId{};
    if (opened == view.opened)
        return;
    view.opened = opened;
    if (!opened.is_known())
        return;
    view.shows_sheet = true;
    if (view.table.selected != opened.number()) {
        view.table.selected = opened.number();
        view.table.show_selected = true;
    }
}

} // namespace

void draw(LotsView& view, const app::LotsModel& model, const app::ReadinessModel& readiness,
          const app::Notice& notice, app::Intents& out) {
    follow_opened(view, model);
    if (model.opened && view.shows_sheet) {
        ui::panes({{"Table", 0.1F, 34_em, [&] { table_side(view, model, true, out); }},
                   {"Sheet", 0.9F, 30_em, [&] { draw_sheet(view, *model.opened, readiness, notice, out); }}});
    } else {
        table_side(view, model, false, out);
    }
    draw(view.question, model, readiness.today, notice, out);
    draw(view.withdrawing, notice, out);
}

} // namespace mellowbin::views
