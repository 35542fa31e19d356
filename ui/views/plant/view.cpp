#include "ui/views/plant/view.h"

#include "ui/views/plant/door.h"
#include "ui/views/plant/parts.h"
#include "ui/widgets/ui.h"

#include <optional>
#include <string_view>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr std::array<std::string_view, 8> pages{"Mills",    "Flours",      "Places",     "Lines",
                                                "Products", "At the door", "Laboratory", "The plant"};

/// The record whose draft was sent and is not answered yet.
std::optional<PlantRef> sent_of(const PlantForms& records) {
    for (const auto& [record, typed] : records.form.drafts)
        if (records.form.is_sent(record))
            return record;
    return {};
}

void opens_kept(PlantView& view, PlantRef sent, PlantRef kept) {
    if (sent == kept || view.records.form.open != sent)
        return;
    view.records.form.open = kept;
    view.records.form.wants_focus = true;
    auto& list = view.lists[static_cast<std::size_t>(kept.kind)];
    list.selected = kept.number;
    list.show_selected = true;
}

void take_answer(PlantView& view, const app::PlantModel& model, const app::Notice& notice) {
    auto& records = view.records;
    const auto sent = sent_of(records);
    const auto kept = records.form.take_accepted(model.kept.count, notice);
    if (kept) {
        records.forget(*kept);
        opens_kept(view, *kept, model.kept.record);
    } else if (sent && !records.form.is_sent(*sent) && !records.form.refusals_of(*sent).empty()) {
        records.take_refusals(*sent, model);
        if (records.form.open == sent)
            ui::focus(records.form.refusals_of(*sent).front().field);
    }
    view.choices.take_answer(notice);
    view.mill_words.form.take_answer(model.mill_words_changed, notice);
}

/// Taken off, its form is gone with it.
void take_standing(PlantView& view, const app::Notice& notice) {
    auto& standing = view.standing;
    if (!standing.asked.is_done(notice) || !standing.takes_off || !standing.about)
        return;
    view.records.forget(*standing.about);
    if (view.records.form.open == standing.about) {
        view.records.form.open.reset();
        view.wants_focus = true;
    }
}

/// Another station took it off.
void close_what_is_gone(PlantView& view, const app::PlantModel& model) {
    auto& open = view.records.form.open;
    if (open && open->number != 0 && !model.find(*open) && !view.records.form.drafts.contains(*open))
        open.reset();
}

void records_page(PlantView& view, PlantKind kind, const app::PlantModel& model, const app::Notice& notice,
                  Day today, app::Intents& out) {
    constexpr ui::Length least_list = 15_em, least_form = 43_em, between = 1.5_em;
    const auto& open = view.records.form.open;
    const bool is_opened = open && open->kind == kind;
    if (std::exchange(view.was_opened, is_opened) != is_opened) // the list moves: it keeps focus and place
        view.wants_focus = view.lists[static_cast<std::size_t>(kind)].show_selected = true;
    const auto list = [&] { draw_list(view, kind, model, is_opened, out); };
    if (!is_opened)
        return list();
    const auto record = *open;
    const auto form = [&] { draw_record(view, record, model, notice, today, out); };
    if (ui::width_left().ems < least_list.ems + least_form.ems + between.ems)
        form(); // with large text it covers the list
    else
        ui::panes({{"List", 0.24F, least_list, list}, {"Form", 0.76F, least_form, form}});
}

} // namespace

void PlantView::show(PlantRef record) {
    page = static_cast<int>(record.kind);
    records.form.open = record;
    lists[static_cast<std::size_t>(record.kind)].selected = record.number;
}

void PlantView::show_record(MillId mill) {
    show({PlantKind::mill, mill.number()});
    mill_page = record_of_mill;
}

void draw(PlantView& view, const app::PlantModel& model, const app::SettingsModel& settings,
          const app::Notice& notice, const app::Overview& overview, app::Intents& out) {
    take_answer(view, model, notice);
    take_standing(view, notice);
    view.records.follow(model);
    close_what_is_gone(view, model);
    if (!shows_mill_record(view))
        leave(view.mill_record, out);
    draw(view.mill_record.complaints.taking_back, notice, out);
    ui::pages({.label = "Show", .label_place = ui::LabelPlace::hidden}, pages, view.page);
    switch (view.page) {
    case PlantView::at_the_door:
        return draw_door_checks(view.choices, model, settings, notice, out);
    case PlantView::laboratory:
        return draw_laboratory(view.choices, settings, notice, out);
    case PlantView::the_plant:
        view.leads_to_choices = draw_the_plant(view.choices, settings, notice, out);
        return;
    default:
        records_page(view, static_cast<PlantKind>(view.page), model, notice, overview.today, out);
    }
}

} // namespace mellowbin::views
