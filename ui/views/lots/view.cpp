#include "ui/views/lots/view.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/save_listing.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::array<std::string_view, 2> lists{"Now", "Past"};

/// Quiet where nothing is to be done.
void write_state(const app::LotRow& row, ui::RowWriter& cells) {
    std::string words(name_of(row.state, row.standing));
    if (!words.empty() && words[0] >= 'A' && words[0] <= 'Z')
        words[0] = static_cast<char>(words[0] - 'A' + 'a');
    const bool is_plain = row.state == LotState::released && row.standing.words.empty();
    cells.cell(words, is_plain ? Role::ink : role_of(row.state, row.standing));
}

/// The day that comes next, after the texture of what the flour is today.
void write_ready(const app::LotRow& row, Day today, ui::RowWriter& cells) {
    const auto day = [&](const std::optional<Day>& on, std::string_view never) {
        return on ? short_day_near(*on, today) : std::string(never);
    };
    switch (row.readiness) {
    case app::Readiness::young:
        return cells.cell(ui::Texture::young, day(row.ready_on, "not in two years"));
    case app::Readiness::usable:
        return cells.cell(ui::Texture::usable, day(row.ready_on, "not in two years"));
    case app::Readiness::ready:
        return cells.cell(ui::Texture::ready, day(row.ready_on, "now"));
    case app::Readiness::use_first:
        return cells.cell(ui::Texture::ready, "by " + day(row.past_best_on, "soon"), Role::mind);
    case app::Readiness::past_best:
        return cells.cell(ui::Texture::past_best, "past " + day(row.past_best_on, "its best"));
    }
}

void write_cell(const app::LotRow& row, LotColumn column, Day today, ui::RowWriter& cells) {
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
        return write_state(row, cells);
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
        return cells.cell(app::in_words(row.readiness));
    case LotColumn::ready:
        return write_ready(row, today, cells);
    case LotColumn::past_best_on:
        return row.past_best_on ? cells.cell(short_day_near(*row.past_best_on, today)) : cells.empty();
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

/// What is chosen is among what is seen: Enter opens no lot that the filter hides.
void follow_filter(LotsView& view, const app::LotsModel& model, const std::vector<std::uint32_t>& rows) {
    if (view.filter == view.filter_before)
        return;
    view.filter_before = view.filter;
    const auto is_chosen = [&](std::uint32_t i) { return model.rows[i].id.number() == view.table.selected; };
    if (rows.empty() || std::any_of(rows.begin(), rows.end(), is_chosen))
        return;
    view.table.selected = model.rows[rows.front()].id.number();
    view.table.show_selected = true;
}

/// Enter opens, and goes into the sheet when it is open already; a press opens; beside an open sheet, the
/// arrows do, too.
void follow_table(LotsView& view, const ui::TableEvents& events, const ui::TableState& table, bool is_opened,
                  app::Intents& out) {
    if (events.opened && is_opened && !events.selected && !events.pressed)
        view.enters_sheet = true;
    else if (events.opened || events.pressed || (events.selected && is_opened))
        open_lot(view, table, out);
}

void lot_table(LotsView& view, const app::LotsModel& model, Day today, bool is_opened, app::Intents& out) {
    std::vector<LotColumn> shown;
    for (const auto column : all_lot_columns())
        if (!view.left_out.contains(column))
            shown.push_back(column);
    std::vector<ui::Column> columns;
    const bool has_long_states =
        std::any_of(model.rows.begin(), model.rows.end(),
                    [](const app::LotRow& row) { return !row.standing.words.empty(); });
    for (const auto column : shown)
        columns.push_back(has_long_states && column == LotColumn::state ? long_state_column()
                                                                        : column_of(column));
    view.table.sort.column = place_of(shown, view.sorted_by);
    const auto& rows = sorted_rows(view, model);
    follow_filter(view, model, rows);

    const auto record = [&](std::size_t i) { return model.rows[rows[i]].id.number(); };
    const auto write = [&](std::size_t i, ui::RowWriter& cells) {
        const auto& row = model.rows[rows[i]];
        for (const auto column : shown)
            write_cell(row, column, today, cells);
        if (row.state == LotState::used_up || row.state == LotState::rejected)
            cells.dim();
    };
    const auto nothing_found =
        fmt::format("No lot has all of \"{}\" in its words. Empty the filter to see all.", view.filter);
    if (std::exchange(view.wants_focus, false))
        ui::focus("Lots");
    const auto events =
        ui::table({.name = "Lots",
                   .columns = columns,
                   .rows = rows.size(),
                   .record = record,
                   .write_row = write,
                   .when_empty = model.rows.empty()
                                     ? std::string_view("No lots yet. Take in a delivery on Intake (F1).")
                                     : nothing_found,
                   .density = ui::Density::close,
                   .typed = &view.filter},
                  view.table);
    if (events.sort_changed && view.table.sort.column < 0)
        view.sorted_by.reset();
    else if (events.sort_changed)
        view.sorted_by = shown[static_cast<std::size_t>(view.table.sort.column)];
    follow_table(view, events, view.table, is_opened, out);
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
        ui::hint(
            "Where the window is too narrow for all, some give way. The box before the day of readiness: an "
            "outline for young, hatched for usable, solid for ready, crossed for past its best.");
        if (ui::button("Close columns", {.kind = ui::ButtonKind::quiet}))
            view.chooses_columns = false;
    });
}

void filter_row(LotsView& view, const app::LotsModel& model, bool is_opened, ui::Body choice_of_list,
                app::Intents& out) {
    ui::flow([&] {
        choice_of_list();
        const auto edited = ui::search_field({.label = "Show only",
                                              .hint = "lot, mill, flour, state, place",
                                              .width = is_opened ? 13_em : 18_em,
                                              .label_place = ui::LabelPlace::hidden,
                                              .enter = ui::Enter::entered},
                                             view.filter);
        if (edited.entered)
            view.wants_focus = true;
        const auto count = sorted_rows(view, model).size();
        ui::text(view.filter.empty()
                     ? counted(count, "lot", "lots")
                     : fmt::format("{} of {}", count, counted(model.rows.size(), "lot", "lots")),
                 {.role = Role::quiet});
        if (!is_opened && !view.chooses_columns &&
            ui::button("Choose columns", {.kind = ui::ButtonKind::quiet}))
            view.chooses_columns = true;
        if (!is_opened && ui::button("Save as a spreadsheet", {.kind = ui::ButtonKind::quiet}))
            out.emplace_back(app::SaveListing{"lots"});
    });
}

void table_side(LotsView& view, const app::LotsModel& model, Day today, bool is_opened, app::Intents& out) {
    const auto choice_of_list = [&] {
        ui::pages({.label = "Lots of", .label_place = ui::LabelPlace::hidden}, lists, view.list);
    };
    if (view.list != LotsView::now) {
        view.past.wants_focus |= std::exchange(view.wants_focus, false);
        follow_table(view, draw(view.past, model.past, choice_of_list, out), view.past.table, is_opened, out);
        return;
    }
    leave(view.past, out);
    filter_row(view, model, is_opened, choice_of_list, out);
    if (view.chooses_columns && !is_opened)
        column_ticks(view);
    lot_table(view, model, today, is_opened, out);
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
    constexpr ui::Length least_table = 31.8_em, least_sheet = 32.2_em, between = 1.5_em;
    const bool is_opened = model.opened && view.shows_sheet;
    if (std::exchange(view.was_opened, is_opened) != is_opened) // the table moves: it keeps focus and place
        view.wants_focus = view.table.show_selected = view.past.table.show_selected = true;
    const auto table = [&] { table_side(view, model, readiness.today, is_opened, out); };
    const auto sheet = [&] { draw_sheet(view, *model.opened, readiness, notice, out); };
    if (!is_opened)
        table();
    else if (ui::width_left().ems < least_table.ems + least_sheet.ems + between.ems)
        sheet(); // with large text it covers the table
    else
        ui::panes({{"Table", 0.55F, least_table, table}, {"Sheet", 0.45F, least_sheet, sheet}});
    auto& filter = view.list == LotsView::now ? view.filter : view.past.filter;
    if (!is_opened && !filter.empty() && ui::key_pressed(ui::Key::escape))
        filter.clear();
    draw(view.question, model, readiness.today, notice, out);
    draw(view.withdrawing, notice, out);
}

} // namespace mellowbin::views
