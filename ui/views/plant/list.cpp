#include "app/acts/plant_records.h"
#include "core/typed_text.h"
#include "ui/views/plant/parts.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using ui::Role;

struct ListLine {
    PlantRef record;
    std::string name, words, standing;
    bool is_retired = false;
};

std::string standing_of(const PlantView& view, const app::PlantRow& row) {
    if (view.records.is_changed(row.record))
        return row.changed.empty() ? "not kept yet" : "not kept yet · " + row.changed;
    if (!row.changed.empty())
        return row.changed;
    return row.is_retired ? "retired" : "";
}

/// A new one that is not kept yet goes before those of the book.
std::vector<ListLine> lines_of(const PlantView& view, PlantKind kind, const app::PlantModel& model) {
    std::vector<ListLine> lines;
    const PlantRef anew{kind, 0};
    if (view.records.is_changed(anew)) {
        const auto name = view.records.shown(anew, model).draft.text("name");
        lines.push_back({anew, name.empty() ? fmt::format("New {}", lower_case(name_of(kind))) : name, "",
                         "not kept yet"});
    }
    for (const auto& row : model.of(kind))
        lines.push_back({row.record, row.name, row.words, standing_of(view, row), row.is_retired});
    return lines;
}

std::string_view what_to_do_first(PlantKind kind, const app::PlantModel& model) {
    switch (kind) {
    case PlantKind::mill:
        return "No mill yet. Add whom you buy flour from: every lot comes from a mill.";
    case PlantKind::flour:
        return "No flour yet. Add each kind you buy, with what a delivery is judged by.";
    case PlantKind::place:
        return "No place yet. Add where flour lies: bays, racks, totes, silos.";
    case PlantKind::line:
        return "No line yet. Add each line with the mixer at its head: runs are planned on lines.";
    case PlantKind::product:
        break;
    }
    return model.flours.empty() ? "No product yet, and no flour to make one of: add a flour first, on Flours."
                                : "No product yet. Add what you bake: runs are planned of products.";
}

void write_line(const ListLine& line, bool has_words, ui::RowWriter& row) {
    const bool is_new_to_them = !line.standing.empty() && line.standing != "retired";
    row.cell(line.name);
    row.cell(line.standing, is_new_to_them ? Role::mind : Role::quiet);
    if (has_words)
        row.cell(line.words);
    if (line.is_retired)
        row.dim();
}

void open(PlantView& view, PlantRef record, const app::PlantModel& model, app::Intents& out) {
    if (view.records.form.open == record)
        return;
    leave(view, model, out);
    view.records.form.open = record;
    if (!view.records.form.drafts.contains(record))
        view.records.gone_through.erase(record);
}

/// Enter opens the form and goes into it; a press opens; beside an open form the arrows do, too.
void follow_table(PlantView& view, PlantKind kind, const ui::TableEvents& events,
                  const app::PlantModel& model, bool is_opened, app::Intents& out) {
    const auto selected = view.lists[static_cast<std::size_t>(kind)].selected;
    if (!selected || !(events.opened || events.pressed || (events.selected && is_opened)))
        return;
    open(view, {kind, *selected}, model, out);
    view.records.form.wants_focus |= events.opened && !events.pressed;
}

} // namespace

void leave(const PlantView& view, const app::PlantModel& model, app::Intents& out) {
    const auto& open = view.records.form.open;
    const auto* row = open ? model.find(*open) : nullptr;
    if (row && !row->changed.empty() && !view.records.is_changed(*open))
        out.emplace_back(app::LookAtPlantRecord{*open});
}

void draw_list(PlantView& view, PlantKind kind, const app::PlantModel& model, bool is_opened,
               app::Intents& out) {
    const auto one = name_of(kind), many = many_of(kind);
    ui::flow([&] {
        if (ui::button(fmt::format("Add a {}", lower_case(one)))) {
            open(view, {kind, 0}, model, out);
            view.lists[static_cast<std::size_t>(kind)].selected = 0;
            view.records.form.wants_focus = true;
        }
    });
    const bool has_words = kind != PlantKind::mill;
    std::vector<ui::Column> columns{
        {.head = one, .sample = "Wholemeal loaf", .stretch = 1, .sortable = false},
        {.head = "Standing", .sample = "▲ not kept yet", .sortable = false}};
    if (has_words)
        columns.push_back({.head = "What it is", .stretch = 2, .sortable = false, .gives_way = 1});
    const auto lines = lines_of(view, kind, model);
    const auto record = [&](std::size_t i) { return lines[i].record.number; };
    const auto write = [&](std::size_t i, ui::RowWriter& row) { write_line(lines[i], has_words, row); };
    if (std::exchange(view.wants_focus, false))
        ui::focus(many);
    const auto events = ui::table({.name = many,
                                   .columns = columns,
                                   .rows = lines.size(),
                                   .record = record,
                                   .write_row = write,
                                   .when_empty = what_to_do_first(kind, model)},
                                  view.lists[static_cast<std::size_t>(kind)]);
    follow_table(view, kind, events, model, is_opened, out);
}

} // namespace mellowbin::views
