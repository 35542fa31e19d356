#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/runs.h"
#include "core/door.h"
#include "core/property.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/findings.h"
#include "ui/views/common/words.h"
#include "ui/views/welcome/steps.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace mellowbin::views {
namespace {

using app::SetUpStep;

constexpr std::array asked_figures{Property::moisture, Property::protein, Property::absorption};

void begin_lot(FirstLotForm& form, const app::SettingUpModel& model, Day today) {
    take_only(model.mills, form.draft.mill);
    take_only(model.flours, form.draft.flour);
    take_only(model.places, form.draft.place);
    if (!std::exchange(form.is_begun, true))
        form.draft.delivered_on = iso(today);
}

/// Each figure that was typed, at the basis that was said of all.
LotDraft as_sent(const FirstLotForm& form) {
    auto draft = form.draft;
    for (auto& figure : draft.figures)
        if (traits(figure.property).has_basis && !figure.value.empty())
            figure.basis = form.basis;
    return draft;
}

void figure_rows(FirstLotForm& form, const app::SettingUpModel& model, const Refusals& refusals) {
    name_row("Basis", refusals, model.bases, form.basis, "At which moisture the sheet states its figures.");
    for (const auto property : asked_figures) {
        const auto& kind = traits(property);
        number_row(kind.name, kind.unit, refusals, form.draft.figure(property).value,
                   property == Property::absorption ? "What the card's water is reckoned from." : "");
    }
}

bool act_button(const AssistantView& view, std::string_view words, std::string_view blocked = {}) {
    return ui::button(words,
                      {.kind = ui::ButtonKind::primary,
                       .blocked = view.asked.is_waiting() ? std::string_view("is being done") : blocked});
}

void add_run(AssistantView& view, const app::SettingUpModel& model, Day today) {
    auto& form = view.run;
    take_only(model.products, form.product);
    take_only(model.lines, form.line);
    if (form.day.empty() && form.batches.empty()) {
        form.day = iso(today);
        form.batches = "1";
    }
    const auto& refusals = view.refusals_of(SetUpStep::run);
    name_row("Product", refusals, model.products, form.product);
    name_row("Line", refusals, model.lines, form.line);
    day_row("Day", refusals, form.day, today, "Today, or another day.");
    number_row("Batches", "", refusals, form.batches);
    ui::all_refusals(all_but(refusals, {"Product", "Line", "Day", "Batches"}));
    if (!act_button(view, "Plan the run"))
        return;
    form.wants_flour = true;
    view.ask(app::AddRun{form.product, form.line, form.day, form.batches});
}

/// The run is on the plan, and gets its flour.
void give_flour(AssistantView& view, const app::SettingUpModel& model) {
    const auto& run = *model.run;
    ui::paragraph(fmt::format("Run {} is on the plan: {}, {}. It has no flour yet.", run.code, run.product,
                              iso(run.day)));
    ui::all_refusals(view.refusals_of(SetUpStep::run));
    const bool has_lot = model.lot && model.lot->state == LotState::released;
    const auto words =
        has_lot ? fmt::format("Give it lot {}", model.lot->code) : std::string("Give it a lot");
    const bool is_wished = std::exchange(view.run.wants_flour, false) && has_lot && !view.asked.is_waiting();
    ui::flow([&] {
        if (act_button(view, words, has_lot ? "" : "No released lot is in stock") || is_wished)
            view.ask(app::GiveLot{model.lot->id, {}, run.id});
        if (ui::button("Take it off and choose another day", {.kind = ui::ButtonKind::quiet}))
            view.ask(app::DropRun{run.id});
    });
}

} // namespace

void lot_step(AssistantView& view, const app::SettingUpModel& model, Day today) {
    if (view.is_looked_at && !model.of(SetUpStep::lot).words.empty())
        ui::hint(fmt::format("Lot {} is in the book. Here another one is taken in; Lots shows both.",
                             model.of(SetUpStep::lot).words));
    begin_lot(view.lot, model, today);
    auto& draft = view.lot.draft;
    const auto& refusals = view.refusals_of(SetUpStep::lot);
    text_row("Lot number", refusals, draft.code, "As it stands on the label.");
    name_row("Mill", refusals, model.mills, draft.mill);
    name_row("Flour", refusals, model.flours, draft.flour);
    name_row("Place", refusals, model.places, draft.place);
    day_row("Milled on", refusals, draft.milled_on, today, "Empty where nobody knows.");
    day_row("Best before", refusals, draft.best_before, today);
    number_row("Weight", "kg", refusals, draft.mass_kg);
    figure_rows(view.lot, model, refusals);
    if (!draft.accept_reason.empty() || is_refused(refusals, accept_field))
        text_row(accept_field, refusals, draft.accept_reason, "It goes into the journal with your name.");
    ui::all_refusals(
        all_but(refusals, {"Lot number", "Mill", "Flour", "Place", "Milled on", "Best before", "Weight",
                           "Basis", "Moisture", "Protein", "Absorption", accept_field}));
    ui::hint(
        "Delivery note, checks at the door and further figures are asked on Intake, from the next lot on.");
    if (act_button(view, "Take in the lot", draft.code.empty() ? "Enter its number" : ""))
        view.ask(app::TakeIn{{as_sent(view.lot)}});
}

void release_step(AssistantView& view, const app::SettingUpModel& model) {
    if (!model.lot || model.of(SetUpStep::release).is_done) {
        ui::paragraph("A lot was released. Those to be judged stand on Lots.");
        return;
    }
    const auto& lot = *model.lot;
    const bool is_held = lot.state == LotState::held;
    const bool needs_reason = is_held || lot.fails;
    ui::paragraph(
        is_held ? fmt::format("Lot {} is on hold: {}.", lot.code, lot.reason)
                : fmt::format("Lot {} is in quarantine. Only a lot that quality released goes into dough.",
                              lot.code));
    draw_findings(lot.findings);
    const auto& refusals = view.refusals_of(SetUpStep::release);
    if (needs_reason)
        text_row("Reason", refusals, view.reason,
                 is_held ? "Why it may be used after all." : "Why it is released out of specification.");
    ui::all_refusals(needs_reason ? all_but(refusals, {"Reason"}) : refusals);
    ui::hint("To hold or reject it, go to Lots.");
    if (act_button(view, "Release the lot", needs_reason && view.reason.empty() ? "Say why" : ""))
        view.ask(app::ReleaseLot{lot.id, view.reason});
}

void run_step(AssistantView& view, const app::SettingUpModel& model, Day today) {
    if (model.of(SetUpStep::run).is_done && model.run)
        ui::paragraph(fmt::format("Run {} has its flour: {}, {}. Plan changes it.", model.run->code,
                                  model.run->product, iso(model.run->day)));
    else if (model.of(SetUpStep::run).is_done)
        ui::paragraph("Runs were planned. Plan shows them.");
    else if (model.run)
        give_flour(view, model);
    else
        add_run(view, model, today);
}

void card_step(AssistantView& view, const app::SettingUpModel& model, app::Intents& out) {
    if (!model.run || !model.run->has_flour) {
        ui::paragraph("All is set up. Plan adds the next run, and Mixer shows its card.");
        if (ui::button("Close", {.kind = ui::ButtonKind::primary}))
            view.is_open = false;
        return;
    }
    ui::paragraph(
        fmt::format("Run {} has its flour: {}, {}. The card says what the mixer weighs, how warm the "
                    "water is, and whether the batch may be mixed at all.",
                    model.run->code, model.run->product, iso(model.run->day)));
    if (ui::button("Show the mixer's card", {.kind = ui::ButtonKind::primary})) {
        out.emplace_back(app::OpenRun{model.run->id});
        view.is_open = false;
    }
}

} // namespace mellowbin::views
