#include "ui/views/plant/complaints.h"

#include "app/acts/mills.h"
#include "core/property.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::string_view no_property = "none";

const std::vector<std::string>& property_names() {
    static const auto names = [] {
        std::vector<std::string> all{std::string(no_property)};
        for (const auto& kind : all_properties())
            all.emplace_back(kind.name);
        return all;
    }();
    return names;
}

void take_answers(ComplaintForms& forms, std::uint64_t accepted, const app::Notice& notice) {
    if (const auto logged = forms.complaint.take_accepted(accepted, notice)) {
        forms.complaint.forget(*logged);
        forms.is_open = false;
    }
    forms.answer.take_answer(accepted, notice);
}

void property_field(ComplaintDraft& draft, const Refusals& refusals) {
    std::string name = draft.property.empty() ? std::string(no_property) : draft.property;
    if (name_choice(ui::field_in_row("Property", refusals), property_names(), name))
        draft.property = name == no_property ? std::string() : name;
}

void fields(ComplaintDraft& draft, Day today, const Refusals& refusals) {
    const auto row = [&](std::string_view label, ui::Body boxes, std::string_view note = {}) {
        ui::form_row(
            {.label = label, .refusals = &refusals, .note = note, .label_width = 7_em, .box_width = 20_em},
            boxes);
    };
    row(
        "Lot", [&] { ui::text_field(ui::field_in_row("Lot", refusals), draft.lot); }, "where it is of one");
    row("Property", [&] { property_field(draft, refusals); });
    row(
        "Subject", [&] { ui::text_field(ui::field_in_row("Subject", refusals), draft.subject); },
        "or a word: bags, weight, papers");
    row("Complaint", [&] { ui::text_field(ui::field_in_row("Complaint", refusals), draft.words); });
    row(
        "Weight", [&] { ui::number_field(ui::field_in_row("Weight", refusals, "kg"), draft.kg); },
        "how much flour it is about, if it is known");
    row("Noticed on", [&] {
        ui::date_field(ui::field_in_row("Noticed on", refusals, {}, "empty: today"), draft.noticed_on, today);
    });
}

void new_complaint(ComplaintForms& forms, const app::MillRecordModel& record, Day today,
                   const app::Notice& notice, app::Intents& out) {
    const MillId mill = record.query.mill;
    if (!forms.is_open) {
        forms.is_open = forms.complaint.wants_focus = ui::button("Log a complaint");
        return;
    }
    auto& draft = forms.complaint.begin(mill);
    const auto& refusals = forms.complaint.refusals_of(mill);
    ui::form("New complaint", [&] {
        if (std::exchange(forms.complaint.wants_focus, false))
            ui::focus("Lot");
        fields(draft, today, refusals);
        ui::flow([&] {
            if (ui::button("Keep the complaint",
                           {.kind = ui::ButtonKind::primary,
                            .blocked = forms.complaint.is_sent(mill) ? "is being kept" : ""})) {
                forms.complaint.ask(mill, notice);
                out.emplace_back(app::LogComplaint{mill, draft});
            }
            if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                forms.is_open = false;
        });
        ui::all_refusals(
            all_but(refusals, {"Lot", "Property", "Subject", "Complaint", "Weight", "Noticed on"}));
    });
}

void answer_form(ComplaintForms& forms, const app::ComplaintRow& row, Day today, const app::Notice& notice,
                 app::Intents& out) {
    auto& form = forms.answer;
    auto& draft = form.begin(row.id);
    const auto& refusals = form.refusals_of(row.id);
    ui::form("Answer", [&] {
        if (std::exchange(form.wants_focus, false))
            ui::focus("Answer");
        const auto line = [&](std::string_view label, ui::Body boxes) {
            ui::form_row({.label = label, .refusals = &refusals, .label_width = 7_em, .box_width = 20_em},
                         boxes);
        };
        line("Answer", [&] { ui::text_field(ui::field_in_row("Answer", refusals), draft.words); });
        line("Answered on", [&] {
            ui::date_field(ui::field_in_row("Answered on", refusals, {}, "empty: today"), draft.answered_on,
                           today);
        });
        changed_meanwhile(row.changed);
        ui::flow([&] {
            if (ui::button("Keep the answer", {.kind = ui::ButtonKind::primary,
                                               .blocked = form.is_sent(row.id) ? "is being kept" : ""})) {
                form.ask(row.id, notice);
                out.emplace_back(app::AnswerComplaint{row.id, draft});
            }
            if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                form.open.reset();
        });
        ui::all_refusals(all_but(refusals, {"Answer", "Answered on"}));
    });
}

template <class What> void ask_to_take_back(ComplaintForms& forms, What what, const app::ComplaintRow& row) {
    forms.taking_back.emplace();
    forms.taking_back->what = what;
    forms.taking_back->words = row.words;
}

void buttons(ComplaintForms& forms, const app::ComplaintRow& row) {
    if (row.is_withdrawn)
        return;
    if (row.is_open && !forms.answer.is_open_for(row.id) && ui::button("Write the answer down"))
        forms.answer.open_for(row.id);
    if (!row.answer.empty() && ui::button("Take the answer back", {.kind = ui::ButtonKind::quiet}))
        ask_to_take_back(forms, AnsweredId{row.id.number()}, row);
    if (ui::button("Withdraw", {.kind = ui::ButtonKind::quiet}))
        ask_to_take_back(forms, row.id, row);
}

void complaint(ComplaintForms& forms, const app::ComplaintRow& row, Day today, const app::Notice& notice,
               app::Intents& out) {
    if (row.is_open)
        ui::status(Role::mind, "Open: " + row.words);
    else
        ui::paragraph((row.is_withdrawn ? "Withdrawn: " : "") + row.words,
                      {.role = row.is_withdrawn ? Role::quiet : Role::ink});
    ui::hint(row.changed.empty() ? row.noticed : fmt::format("{} · changed {}", row.noticed, row.changed));
    if (!row.answer.empty())
        ui::paragraph(row.answer);
    ui::flow([&] { buttons(forms, row); });
    if (row.is_open && forms.answer.is_open_for(row.id))
        answer_form(forms, row, today, notice, out);
    ui::gap(1);
}

} // namespace

void draw_complaints(ComplaintForms& forms, const app::MillRecordModel& record, std::uint64_t accepted,
                     Day today, const app::Notice& notice, app::Intents& out) {
    take_answers(forms, accepted, notice);
    ui::part("Complaints");
    if (record.complaints.empty())
        ui::hint("None is open, and none was noticed in these days.");
    for (const auto& row : record.complaints)
        ui::scope(row.id.number(), [&] { complaint(forms, row, today, notice, out); });
    new_complaint(forms, record, today, notice, out);
}

} // namespace mellowbin::views
