#include "ui/views/intake/lot_form.h"

#include "app/models/intake.h"
#include "core/door.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/intake/pallets.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr auto no_label = ui::LabelPlace::hidden;
constexpr std::array folded{"Certificate date", "Flour temperature", "Weight of a bag", "Price per tonne",
                            "Nitrogen factor"};

void follow(DeliveryLine& line, std::string_view field, const ui::Edited& edited) {
    if (edited.changed)
        line.change(field);
    if (edited.left)
        line.leave(field);
}

/// "from the scan", "as expected", else what is said of the field.
std::string_view note_of(const LotForm& form, std::string_view field, std::string_view note) {
    if (form.line.expected.contains(field))
        return "as expected";
    return form.line.scanned.contains(field) ? std::string_view("from the scan") : note;
}

/// Under its heading a field is said in a word.
std::string_view shown_label(std::string_view field) {
    constexpr std::string_view under_heading = " added by the mill";
    return field.ends_with(under_heading) ? field.substr(0, field.size() - under_heading.size()) : field;
}

ui::FormRow row_of(const LotForm& form, std::string_view field, std::string_view note) {
    return {.label = shown_label(field),
            .field = field,
            .refusals = &form.line.refusals,
            .note = note_of(form, field, note)};
}

void text_in_row(LotForm& form, const ui::FormRow& row, std::string& text) {
    ui::form_row(row, [&] {
        follow(form.line, row.field,
               ui::text_field({.label = row.field,
                               .refusals = &form.line.refusals,
                               .width = 13.5_em,
                               .label_place = no_label},
                              text));
    });
}

void addition_rows(LotForm& form, std::string& substance, std::string& ppm) {
    std::vector<std::string> choices{"none"};
    const auto& known = form.model.substances;
    choices.insert(choices.end(), known.begin(), known.end());
    for (const auto one : all_substances())
        if (substance == key_of(one))
            substance = name_of(one);
    std::string chosen = substance.empty() ? choices.front() : substance;
    if (name_row(form, "Oxidant added by the mill", choices, chosen))
        substance = chosen == choices.front() ? std::string() : chosen;
    number_row(form, "Dose added by the mill", "mg/kg", ppm);
}

void mill_rows(LotForm& form) {
    auto& draft = form.line.draft;
    ui::heading("Added by the mill");
    addition_rows(form, draft.mill_oxidant, draft.mill_oxidant_ppm);
    for (std::size_t i = 0; i < draft.further_additions.size(); ++i)
        ui::scope(static_cast<std::int64_t>(i) + 2, [&] {
            auto& further = draft.further_additions[i];
            addition_rows(form, further.substance, further.ppm);
        });
}

/// Asked once something stands against the lot; what stands there is said at its own field.
void accept_rows(LotForm& form) {
    auto& draft = form.line.draft;
    if (draft.accept_reason.empty() && !is_refused(form.line.refusals, accept_field))
        return;
    ui::heading("Something stands against this lot");
    ui::hint(
        "See the fields marked. Correct them, send the flour back, or say why it is taken in all the same: "
        "it goes into the journal with your name.");
    text_row(form, accept_field, draft.accept_reason);
}

bool is_folded_refused(const LotForm& form) {
    const auto is_other_figure = [&](const Refusal& refusal) {
        const auto all = all_properties();
        return std::any_of(all.begin(), all.end(), [&](const PropertyTraits& kind) {
            return kind.name == refusal.field && !is_asked_first(form, kind.property);
        });
    };
    return std::any_of(folded.begin(), folded.end(),
                       [&](const char* field) { return is_refused(form.line.refusals, field); }) ||
           std::any_of(form.line.refusals.begin(), form.line.refusals.end(), is_other_figure);
}

void folded_rows(LotForm& form, LotFolds& folds) {
    auto& draft = form.line.draft;
    if (is_folded_refused(form))
        folds.shows_more = true;
    if (ui::button(folds.shows_more ? "Show fewer figures" : "Price, bags, temperature, more figures",
                   {.kind = ui::ButtonKind::quiet}))
        folds.shows_more = !folds.shows_more;
    if (!folds.shows_more)
        return;
    number_row(form, "Price per tonne", "per t", draft.price_per_tonne);
    number_row(form, "Weight of a bag", "kg", draft.bag_kg, "empty: it came loose");
    number_row(form, "Flour temperature", form.model.temperature_unit, draft.delivered_c, "as it came");
    day_row(form, "Certificate date", draft.certified_on);
    figure_rows(form, folds, Figures::others);
}

/// A number that no label of GS1 can have is a lot number all the same.
void lot_number_row(LotForm& form) {
    const auto why_no_label = app::label_note(form.line.draft.code);
    auto row = row_of(form, "Lot number", {});
    if (!why_no_label.empty())
        row.note = why_no_label;
    text_in_row(form, row, form.line.draft.code);
}

} // namespace

void text_row(LotForm& form, std::string_view field, std::string& text, std::string_view note) {
    text_in_row(form, row_of(form, field, note), text);
}

void number_row(LotForm& form, std::string_view field, std::string_view unit, std::string& text,
                std::string_view note) {
    ui::form_row(row_of(form, field, note), [&] {
        follow(form.line, field,
               ui::number_field({.label = field,
                                 .unit = unit,
                                 .refusals = &form.line.refusals,
                                 .width = 8_em,
                                 .label_place = no_label},
                                text));
    });
}

void day_row(LotForm& form, std::string_view field, std::string& text, std::string_view note) {
    ui::form_row(row_of(form, field, note), [&] {
        auto edited = ui::date_field({.label = field,
                                      .hint = "YYYY-MM-DD",
                                      .refusals = &form.line.refusals,
                                      .width = 7.5_em,
                                      .label_place = no_label},
                                     text, form.today);
        const auto day = read_day(field, text);
        edited.left = edited.left || (edited.changed && day && day->has_value()); // by its buttons, too
        follow(form.line, field, edited);
    });
}

bool name_row(LotForm& form, std::string_view field, const std::vector<std::string>& names, std::string& name,
              std::string_view note) {
    const bool is_listed = name.empty() || std::find(names.begin(), names.end(), name) != names.end();
    const auto as_read =
        is_listed ? std::string() : fmt::format("\"{}\" was read; it is not in the list", name);
    bool is_changed = false;
    ui::form_row(row_of(form, field, is_listed ? note : std::string_view(as_read)), [&] {
        const ui::Field choice{
            .label = field, .refusals = &form.line.refusals, .width = 13.5_em, .label_place = no_label};
        is_changed = name_choice(choice, names, name);
    });
    if (is_changed)
        follow(form.line, field, {.changed = true, .left = true});
    return is_changed;
}

void lot_form(LotForm& form, LotFolds& folds) {
    auto& draft = form.line.draft;
    lot_number_row(form);
    name_row(form, "Flour", form.model.flours, draft.flour);
    day_row(form, "Milled on", draft.milled_on, "empty where nobody knows");
    day_row(form, "Best before", draft.best_before);
    number_row(form, "Weight", "kg", draft.mass_kg);
    pallet_rows(form, folds);
    name_row(form, "Place", form.model.places, draft.place);
    ui::gap(1);
    ui::heading("Certificate");
    figure_rows(form, folds, Figures::asked_first);
    ui::gap(1);
    mill_rows(form);
    accept_rows(form);
    ui::gap(1);
    folded_rows(form, folds);
}

} // namespace mellowbin::views
