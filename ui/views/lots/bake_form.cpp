#include "ui/views/lots/bake_form.h"

#include "app/acts/bakes.h"
#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "core/bake.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

/// The next loaf of a ladder is of the same lot, oxidant, measure and day.
void begin_next(BakeDraft& draft) {
    draft.dose.clear();
    draft.size.clear();
    draft.note.clear();
}

/// Dose, size and note are emptied for the next loaf; the rest stays.
void take_answer(BakeForm& form, const app::LotSheet& sheet, const app::Notice& notice) {
    const auto logged = form.take_accepted(sheet.bakes_logged, notice);
    if (!logged)
        return;
    auto next = form.drafts[*logged];
    begin_next(next);
    form.begin_again(*logged, next);
    form.wants_focus = *logged == sheet.row.id;
}

/// A ladder that was begun is likely to go on; a plant with one oxidant need not choose it.
BakeDraft first_draft(const app::LotSheet& sheet) {
    BakeDraft draft;
    draft.measure = key_of(LoafMeasure::volume);
    if (sheet.ladders.size() == 1) {
        draft.substance = sheet.ladders.front().substance;
        if (sheet.ladders.front().unit == unit_of(LoafMeasure::height))
            draft.measure = key_of(LoafMeasure::height);
    } else if (sheet.substances.size() == 1) {
        draft.substance = sheet.substances.front();
    }
    return draft;
}

LoafMeasure measure_of(const BakeDraft& draft) {
    return loaf_measure_from_key(draft.measure).value_or(LoafMeasure::volume);
}

void measure_choice(BakeDraft& draft, const Refusals& refusals) {
    static constexpr std::array measures{LoafMeasure::volume, LoafMeasure::height};
    const std::array names{name_of(measures[0]), name_of(measures[1])};
    int chosen = measure_of(draft) == measures[0] ? 0 : 1;
    if (ui::choice(ui::field_in_row("Measure", refusals), names, chosen))
        draft.measure = key_of(measures[static_cast<std::size_t>(chosen)]);
}

void fields(BakeDraft& draft, const app::LotSheet& sheet, Day today, const Refusals& refusals) {
    const auto row = [&](std::string_view label, ui::Body boxes) {
        ui::form_row({.label = label, .refusals = &refusals, .label_width = 6_em, .box_width = 20_em}, boxes);
    };
    row("Oxidant",
        [&] { name_choice(ui::field_in_row("Oxidant", refusals), sheet.substances, draft.substance); });
    row("Dose",
        [&] { ui::number_field(ui::field_in_row("Dose", refusals, "mg/kg", "0: none"), draft.dose); });
    row("Measure", [&] { measure_choice(draft, refusals); });
    row("Size", [&] {
        ui::number_field(ui::field_in_row("Size", refusals, unit_of(measure_of(draft))), draft.size);
    });
    row("Baked on", [&] {
        ui::date_field(ui::field_in_row("Baked on", refusals, {}, "empty: today"), draft.baked_on, today);
    });
    row("Note", [&] { ui::text_field(ui::field_in_row("Note", refusals), draft.note); });
    ui::paragraph("Weigh an oxidant with gloves: a small mistake is a large dose. "
                  "The law of the place comes first.");
}

} // namespace

void draw(BakeForm& form, const app::LotSheet& sheet, Day today, const app::Notice& notice,
          app::Intents& out) {
    take_answer(form, sheet, notice);
    const LotId lot = sheet.row.id;
    if (!form.is_open) {
        form.wants_focus = form.is_open = ui::button("Log a loaf");
        return;
    }
    auto& draft = form.begin(lot, first_draft(sheet));
    ui::panel(fmt::format("A loaf of {}", sheet.row.code), [&] {
        ui::form("Loaf", [&] {
            if (std::exchange(form.wants_focus, false))
                ui::focus("Dose");
            fields(draft, sheet, today, form.refusals_of(lot));
            changed_meanwhile(sheet.row.changed);
            ui::flow([&] {
                if (ui::button("Log the loaf", {.kind = ui::ButtonKind::primary})) {
                    form.ask(lot, notice);
                    out.emplace_back(app::LogBake{lot, draft});
                }
                if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                    form.is_open = false;
            });
            ui::all_refusals(
                all_but(form.refusals_of(lot), {"Oxidant", "Dose", "Measure", "Size", "Baked on", "Note"}));
        });
    });
}

} // namespace mellowbin::views
