#include "app/acts/plant_records.h"
#include "core/typed_text.h"
#include "ui/views/plant/fields.h"
#include "ui/views/plant/parts.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <string>
#include <string_view>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

std::string kind_in_words(PlantRef record) { return lower_case(name_of(record.kind)); }

/// Gives back true when it is closed.
bool head(const PlantView& view, PlantRef record, const app::PlantRow* row) {
    if (!row)
        return ui::sheet_head({.name = fmt::format("New {}", kind_in_words(record))});
    const bool is_closed = ui::sheet_head({.name = row->name, .beside = row->words});
    if (row->is_retired)
        ui::sheet_verdict({.role = Role::quiet,
                           .words = "Retired: nothing new may name it",
                           .why = "What is in the book with its name stays as it is."});
    if (!row->changed.empty())
        ui::status(Role::mind,
                   fmt::format("Changed elsewhere: {}.{}", row->changed,
                               view.records.is_changed(record) ? " What was typed here is kept." : ""));
    return is_closed;
}

/// What stands at no field: of the form, of retiring and taking off.
void refusals(const PlantView& view, PlantRef record, const Refusals& of_form) {
    ui::all_refusals(without_place(of_form, record.kind));
    if (view.standing.about == record)
        ui::all_refusals(view.standing.asked.refusals);
}

void fields(RecordForm& form, PlantView& view) {
    if (std::exchange(view.records.form.wants_focus, false))
        ui::focus("Name");
    draw_fields(form);
    draw_lists(form);
    ui::gap(2);
}

/// What was typed in this frame.
void take_typed(PlantView& view, PlantRef record, RecordForm& form) {
    auto& records = view.records;
    const bool is_other = form.typed != records.shown(record, form.model);
    if (is_other && records.thrown_away && records.thrown_away->record == record)
        records.thrown_away.reset();
    for (const auto& field : form.changed)
        records.forget_answer(record, field);
    if (!form.left.empty())
        records.gone_through[record].fields.merge(form.left);
    if (is_other)
        records.type(record, std::move(form.typed));
}

void keep(PlantView& view, PlantRef record, const app::PlantRow* row, const app::PlantModel& model,
          const app::Notice& notice, app::Intents& out) {
    const auto typed = view.records.shown(record, model);
    view.records.gone_through[record].all = true;
    view.records.form.ask(record, notice);
    app::KeepPlantRecord act{record, without_blank_rows(typed.draft)};
    if (row)
        act.before = typed.before;
    out.emplace_back(std::move(act));
}

void form_buttons(PlantView& view, PlantRef record, const app::PlantRow* row, const app::PlantModel& model,
                  const app::Notice& notice, app::Intents& out) {
    const bool is_changed = view.records.is_changed(record);
    const auto verb =
        row ? fmt::format("Keep {}", row->name) : fmt::format("Add the {}", kind_in_words(record));
    const std::string_view blocked = view.records.form.is_sent(record) ? "is being kept"
                                     : is_changed                      ? ""
                                     : row                             ? "nothing was changed"
                                                                       : "nothing is typed yet";
    if (ui::button(verb, {.kind = ui::ButtonKind::primary, .blocked = blocked}))
        keep(view, record, row, model, notice, out);
    if (view.records.form.drafts.contains(record) &&
        ui::button(row ? "As it stands" : "Empty the form", {.kind = ui::ButtonKind::quiet}))
        view.records.throw_away(record);
    const auto& away = view.records.thrown_away;
    if (away && away->record == record &&
        ui::button("Bring back what was typed", {.kind = ui::ButtonKind::quiet}))
        view.records.bring_back();
}

void ask_standing(PlantView& view, PlantRef record, bool takes_off, const app::Notice& notice) {
    view.standing.about = record;
    view.standing.takes_off = takes_off;
    view.standing.asked.ask(notice);
}

void standing_buttons(PlantView& view, const app::PlantRow& row, const app::Notice& notice,
                      app::Intents& out) {
    if (ui::button(row.is_retired ? "In use again" : "Retire")) {
        ask_standing(view, row.record, false, notice);
        out.emplace_back(app::RetirePlantRecord{row.record, !row.is_retired});
    }
    if (ui::button("Take off", {.kind = ui::ButtonKind::stop,
                                .tip = "Only where nothing ever named it; else retire it"})) {
        ask_standing(view, row.record, true, notice);
        out.emplace_back(app::RemovePlantRecord{row.record});
    }
}

/// A mill has its record beside its form. True when the record is looked at.
bool mill_pages(PlantView& view, PlantRef record, const app::PlantRow* row) {
    static constexpr std::array<std::string_view, 2> pages{"Form", "Record"};
    if (record.kind != PlantKind::mill || !row)
        return false;
    ui::pages({.label = "Of the mill", .label_place = ui::LabelPlace::hidden}, pages, view.mill_page);
    return view.mill_page == PlantView::record_of_mill;
}

constexpr ui::Length foot_height = 5_em;

/// The form scrolls, and what keeps it stays where it is, but where there is little room.
void body_and_foot(ui::Body body, ui::Body foot) {
    constexpr ui::Length least = 12_em;
    if (const auto left = ui::height_left(); left.ems > least.ems + foot_height.ems)
        ui::scroll_area("Fields", {left.ems - foot_height.ems}, body);
    else
        ui::scope("Fields", body);
    ui::flow(foot);
}

} // namespace

bool shows_mill_record(const PlantView& view) {
    const auto& open = view.records.form.open;
    return view.page == PlantView::mills && view.mill_page == PlantView::record_of_mill && open &&
           open->kind == PlantKind::mill && open->number != 0;
}

void draw_record(PlantView& view, PlantRef record, const app::PlantModel& model, const app::Notice& notice,
                 Day today, app::Intents& out) {
    const auto* row = model.find(record);
    auto typed = view.records.shown(record, model);
    auto said = view.records.said(record, typed.draft, model);
    RecordForm form{std::move(typed), row, std::move(said), model, today, {}, {}};
    ui::keep_clear_below(foot_height); // what was done covers no button
    bool is_closed = false;
    const auto body = [&] {
        fields(form, view);
        if (row && record.kind == PlantKind::mill)
            draw_mill_words(view.mill_words, record, row->name, model, notice, out);
    };
    const auto foot = [&] {
        take_typed(view, record, form);
        form_buttons(view, record, row, model, notice, out);
        if (row)
            standing_buttons(view, *row, notice, out);
    };
    ui::scope(fmt::format("{} {}", key_of(record.kind), record.number), [&] {
        ui::filling_panel({}, [&] {
            is_closed = head(view, record, row);
            if (mill_pages(view, record, row))
                return draw_mill_record(view.mill_record, MillId{record.number}, model, notice, today, out);
            refusals(view, record, form.refusals);
            ui::form("Record", [&] { body_and_foot(body, foot); });
        });
    });
    if (!is_closed)
        return;
    leave(view, model, out);
    view.records.form.open.reset();
    if (record.number == 0 && !view.records.form.drafts.contains(record))
        view.lists[static_cast<std::size_t>(record.kind)].selected.reset(); // no line of the list
    view.wants_focus = true;
}

} // namespace mellowbin::views
