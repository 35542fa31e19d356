#include "app/acts/save_listing.h"
#include "app/acts/trace.h"
#include "core/decimal.h"
#include "ui/views/common/words.h"
#include "ui/views/trace/parts.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

/// Both forms are there once.
constexpr std::int64_t the_one = 0;

void text_row(std::string_view label, std::string& text, const Refusals& refusals,
              std::string_view note = {}) {
    ui::form_row(
        {.label = label, .refusals = &refusals, .note = note, .label_width = 7_em, .box_width = 14_em},
        [&] { ui::text_field(ui::field_in_row(label, refusals), text); });
}

void number_row(std::string_view label, std::string_view unit, std::string& text, const Refusals& refusals,
                std::string_view note = {}) {
    ui::form_row(
        {.label = label, .refusals = &refusals, .note = note, .label_width = 7_em, .box_width = 10_em},
        [&] { ui::number_field(ui::field_in_row(label, refusals, unit), text); });
}

void day_row(std::string& day, Day today, const Refusals& refusals) {
    ui::form_row({.label = "Day", .refusals = &refusals, .label_width = 7_em, .box_width = 20_em},
                 [&] { ui::date_field(ui::field_in_row("Day", refusals, {}, "empty: today"), day, today); });
}

bool asks_reason(const DispatchDraft& draft, const Refusals& refusals) {
    return !draft.reason.empty() ||
           std::ranges::any_of(refusals, [](const Refusal& one) { return one.field == "Reason"; });
}

void dispatch_fields(DispatchDraft& draft, Day today, const Refusals& refusals) {
    text_row("Customer", draft.customer, refusals, "the customer's code");
    text_row("Run", draft.run, refusals, "empty: the only one of the product that day");
    text_row("Product", draft.product, refusals, "empty: the run's");
    number_row("Pieces", "", draft.pieces, refusals);
    number_row("Weight", "kg", draft.kg, refusals, "of bread");
    number_row("A piece", "g", draft.piece_g, refusals, "where only pieces were counted");
    day_row(draft.day, today, refusals);
    text_row("Note", draft.note, refusals);
    if (asks_reason(draft, refusals))
        text_row("Reason", draft.reason, refusals, "why it stands though it is more than the run gives");
}

/// A form that is opened by a button, and sends its draft by another.
template <class Draft, class Fields, class Send>
void one_form(Form<std::int64_t, Draft>& form, std::string_view opens, std::string_view name,
              std::string_view deed, const app::Notice& notice,
              std::initializer_list<std::string_view> labels, Fields fields, Send send) {
    if (!form.is_open_for(the_one)) {
        if (ui::button(opens))
            form.open_for(the_one);
        return;
    }
    auto& draft = form.begin(the_one);
    const auto& refusals = form.refusals_of(the_one);
    ui::form(name, [&] {
        if (std::exchange(form.wants_focus, false))
            ui::focus_first_empty_field();
        fields(draft, refusals);
        ui::flow([&] {
            if (ui::button(deed, {.kind = ui::ButtonKind::primary,
                                  .blocked = form.is_sent(the_one) ? "is being written" : ""})) {
                form.ask(the_one, notice);
                send(draft);
            }
            if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                form.open.reset();
        });
        ui::all_refusals(all_but(refusals, labels));
    });
}

std::string words_of(const app::TraceDispatch& one) {
    const auto& d = one.dispatch;
    std::string amount =
        d.pieces ? counted(static_cast<std::size_t>(*d.pieces), "piece", "pieces") : std::string();
    if (d.mass)
        amount += fmt::format("{}{} kg", amount.empty() ? "" : ", ", fixed(to_kilograms(*d.mass).value(), 1));
    return fmt::format("{}: {} of {} to {}, run {}{}", iso(d.day), amount, one.product, d.customer,
                       one.run_code, d.note.empty() ? "" : ", " + d.note);
}

void dispatch_row(TraceView& view, const app::TraceDispatch& one) {
    const auto words = words_of(one);
    if (one.dispatch.is_countered) {
        ui::paragraph("Taken back: " + words, {.role = Role::quiet});
        return;
    }
    ui::paragraph(words);
    if (ui::button("It did not leave to " + one.dispatch.customer, {.kind = ui::ButtonKind::quiet})) {
        view.taking_back.emplace();
        view.taking_back->what = one.dispatch.id;
        view.taking_back->words = words;
    }
}

void rework_fields(ReworkDraft& draft, const Refusals& refusals) {
    constexpr std::array<std::string_view, 2> kinds{"dough", "flour"};
    text_row("From run", draft.from_run, refusals, "the earlier batch: the code of its run");
    number_row("From batch", "", draft.from_batch, refusals);
    text_row("Into run", draft.into_run, refusals, "the later batch");
    number_row("Into batch", "", draft.into_batch, refusals);
    number_row("Weight", "kg", draft.kg, refusals);
    ui::form_row({.label = "Kind", .refusals = &refusals, .label_width = 7_em, .box_width = 12_em}, [&] {
        int chosen = draft.kind == "flour" ? 1 : 0;
        if (ui::choice(ui::field_in_row("Kind", refusals), kinds, chosen))
            draft.kind = chosen == 1 ? "flour" : "";
    });
    text_row("Note", draft.note, refusals);
}

} // namespace

void draw_dispatches(TraceView& view, const app::TracePage& page, Day today, const app::Notice& notice,
                     app::Intents& out) {
    ui::part("Bread that left");
    one_form(
        view.dispatch, "Log a dispatch", "New dispatch", "Log dispatch", notice,
        {"Customer", "Run", "Product", "Pieces", "Weight", "A piece", "Day", "Note", "Reason"},
        [&](DispatchDraft& draft, const Refusals& refusals) { dispatch_fields(draft, today, refusals); },
        [&](const DispatchDraft& draft) { out.emplace_back(app::LogDispatch{draft}); });
    if (page.dispatches.empty())
        ui::hint("None in the last fortnight. A file of them is read by the command read-dispatches.");
    for (const auto& one : page.dispatches)
        ui::scope(one.dispatch.id.number(), [&] { dispatch_row(view, one); });
    if (!page.dispatches.empty() && ui::button("Save as a spreadsheet", {.kind = ui::ButtonKind::quiet}))
        out.emplace_back(app::SaveListing{"dispatches"});
    ui::part("Put back");
    ui::hint("Dough or flour of a batch that goes into a later one is a source of it: a trace follows both.");
    one_form(view.rework, "Log what was put back", "New rework", "Log rework", notice,
             {"From run", "From batch", "Into run", "Into batch", "Weight", "Kind", "Note"}, rework_fields,
             [&](const ReworkDraft& draft) { out.emplace_back(app::LogRework{draft}); });
}

} // namespace mellowbin::views
