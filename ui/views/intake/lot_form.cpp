#include "ui/views/intake/lot_form.h"

#include "app/models/intake.h"
#include "core/door.h"
#include "ui/views/common/figure_fields.h"
#include "ui/widgets/ui.h"

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

/// A basis belongs to the mill's sheet: of another mill it must be said anew, unless a figure was typed with
/// it.
void forget_bases(LotDraft& draft) {
    for (auto& figure : draft.figures)
        if (figure.value.empty())
            figure.basis.clear();
}

void label_fields(LotDraft& draft, const Refusals& refusals, const app::IntakeModel& model, Day today) {
    const auto day = [&](std::string_view label, std::string& text) {
        ui::date_field({.label = label, .hint = "YYYY-MM-DD", .refusals = &refusals}, text, today);
    };
    ui::text_field({.label = "Lot number", .refusals = &refusals}, draft.code);
    ui::number_field({.label = "Weight", .unit = "kg", .refusals = &refusals}, draft.mass_kg);
    day("Milled on", draft.milled_on);
    day("Best before", draft.best_before);
    day("Certificate date", draft.certified_on);
    ui::number_field({.label = "Flour temperature",
                      .unit = model.temperature_unit,
                      .hint = "as it came",
                      .refusals = &refusals},
                     draft.delivered_c);
    ui::number_field(
        {.label = "Weight of a bag", .unit = "kg", .hint = "empty: loose", .refusals = &refusals},
        draft.bag_kg);
    ui::number_field({.label = "Price per tonne", .unit = "per t", .refusals = &refusals},
                     draft.price_per_tonne);
}

/// Asked once something stands against the lot; what stands there is said at its own field.
void accept_question(LotDraft& draft, const Refusals& refusals) {
    if (draft.accept_reason.empty() && !is_refused(refusals, accept_field))
        return;
    ui::loud_panel(ui::Role::mind, "Something stands against this lot", [&] {
        ui::paragraph(
            "See the fields marked. Correct them, send the flour back, or say why it is taken in all "
            "the same: it goes into the journal with your name.");
        ui::text_field({.label = accept_field, .refusals = &refusals}, draft.accept_reason);
    });
    ui::gap();
}

void delivery_fields(LotDraft& draft, const Refusals& refusals, const app::IntakeModel& model, Day today) {
    if (name_choice({.label = "Mill", .refusals = &refusals}, model.mills, draft.mill))
        forget_bases(draft);
    name_choice({.label = "Flour", .refusals = &refusals}, model.flours, draft.flour);
    name_choice({.label = "Place", .refusals = &refusals}, model.places, draft.place);
    ui::date_field({.label = "Delivered on", .hint = "YYYY-MM-DD", .refusals = &refusals}, draft.delivered_on,
                   today);
    ui::text_field({.label = "Delivery note", .refusals = &refusals}, draft.delivery_note);
}

void figure_line(FigureDraft& figure, const Refusals& refusals, const app::IntakeModel& model,
                 Figures figures) {
    const bool has_factor =
        figure.property == Property::protein && (figures == Figures::all || !figure.nitrogen_factor.empty());
    ui::stack({}, [&] {
        ui::flow([&] {
            figure_fields(figure, refusals, model.bases, AskMethod::where_it_matters);
            if (has_factor)
                ui::number_field(
                    {.label = "Nitrogen factor", .hint = "5.7", .refusals = &refusals, .width = 6_em},
                    figure.nitrogen_factor);
        });
    });
}

/// A figure that a file holds twice is shown twice, so that one can be emptied.
void figures_of(LotDraft& draft, Property property, const Refusals& refusals, const app::IntakeModel& model,
                Figures figures) {
    draft.figure(property);
    bool is_first = true;
    for (std::size_t i = 0; i < draft.figures.size(); ++i) {
        auto& figure = draft.figures[i];
        if (figure.property != property || (!is_first && figure.value.empty()))
            continue;
        is_first = false;
        ui::scope(static_cast<std::int64_t>(i), [&] { figure_line(figure, refusals, model, figures); });
    }
}

bool is_shown(const LotDraft& draft, const app::IntakeModel& model, Property property, Figures figures) {
    const auto& first = model.figures;
    return figures == Figures::all || std::find(first.begin(), first.end(), property) != first.end() ||
           std::any_of(draft.figures.begin(), draft.figures.end(),
                       [&](const auto& f) { return f.property == property && !f.value.empty(); });
}

void addition_fields(std::string& substance, std::string& ppm, const Refusals& refusals,
                     const app::IntakeModel& model) {
    std::vector<std::string> choices{"none"};
    choices.insert(choices.end(), model.substances.begin(), model.substances.end());
    for (const auto known : all_substances())
        if (substance == key_of(known))
            substance = name_of(known);
    std::string chosen = substance.empty() ? choices.front() : substance;
    if (name_choice({.label = "Oxidant added by the mill", .refusals = &refusals}, choices, chosen))
        substance = chosen == choices.front() ? std::string() : chosen;
    ui::number_field({.label = "Dose added by the mill", .unit = "mg/kg", .refusals = &refusals}, ppm);
}

void mill_addition_fields(LotDraft& draft, const Refusals& refusals, const app::IntakeModel& model) {
    addition_fields(draft.mill_oxidant, draft.mill_oxidant_ppm, refusals, model);
    for (std::size_t i = 0; i < draft.further_additions.size(); ++i)
        ui::scope(static_cast<std::int64_t>(i) + 2, [&] {
            auto& further = draft.further_additions[i];
            addition_fields(further.substance, further.ppm, refusals, model);
        });
}

} // namespace

void lot_form(LotDraft& draft, const Refusals& refusals, const app::IntakeModel& model, Day today,
              Figures figures) {
    accept_question(draft, refusals);
    ui::grid(15_em, [&] { label_fields(draft, refusals, model, today); });
    ui::gap();
    ui::heading("Where from, where to");
    ui::grid(15_em, [&] { delivery_fields(draft, refusals, model, today); });
    ui::gap();
    ui::heading("Certificate");
    ui::grid(16_em, [&] {
        for (const auto& kind : all_properties())
            if (is_shown(draft, model, kind.property, figures))
                figures_of(draft, kind.property, refusals, model, figures);
    });
    ui::gap();
    ui::heading("Added by the mill");
    ui::grid(13_em, [&] { mill_addition_fields(draft, refusals, model); });
}

} // namespace mellowbin::views
