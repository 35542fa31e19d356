#include "app/acts/plant_records.h"
#include "app/acts/settings.h"
#include "core/property.h"
#include "core/typed_text.h"
#include "ui/views/common/words.h"
#include "ui/views/welcome/steps.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using app::SetUpStep;

// The plant's name

void begin_plant(PlantNameForm& form, const app::SettingUpModel& model) {
    if (form.is_touched())
        return;
    form.name = form.name_before = model.plant;
    form.zone = form.zone_before = model.time_zone;
}

// Records, of which only the fields are asked that a first card needs

constexpr std::array<std::string_view, 1> mill_keys{"name"};
constexpr std::array<std::string_view, 2> flour_keys{"name", "class"};
constexpr std::array<std::string_view, 4> place_keys{"name", "kind", "air", "temperature_c"};
constexpr std::array<std::string_view, 7> line_keys{
    "name",        "friction_factor_c", "mixing_energy_kj_per_kg", "room_c",
    "tap_water_c", "coldest_water_c",   "most_ice_share"};
constexpr std::array<std::string_view, 8> product_keys{"name",           "flour",
                                                       "market",         "food",
                                                       "batch_flour_kg", "dough_temperature_c",
                                                       "mixing_minutes", "fermentation_minutes"};

std::span<const std::string_view> asked_keys(PlantKind kind) {
    switch (kind) {
    case PlantKind::mill:
        return mill_keys;
    case PlantKind::flour:
        return flour_keys;
    case PlantKind::place:
        return place_keys;
    case PlantKind::line:
        return line_keys;
    case PlantKind::product:
        break;
    }
    return product_keys;
}

/// An untouched form shows what the book has: a new record, or the one that is looked at again.
void begin_record(AssistantView& view, const app::SettingUpModel& model, PlantKind kind) {
    auto& form = view.form_of(kind);
    if (form.is_touched())
        return;
    const auto& kept = model.of(kind);
    if (view.is_looked_at && kept) {
        form = {kept->record, kept->draft, kept->draft};
        return;
    }
    form.record = {kind, 0};
    form.draft = blank_draft(kind);
    if (kind == PlantKind::product)
        take_only(model.flours, form.draft.texts["flour"]);
    form.before = form.draft;
}

void field_row(const PlantField& field, std::string& text, const app::SettingUpModel& model,
               const Refusals& refusals) {
    switch (field.shape) {
    case FieldShape::number:
    case FieldShape::whole:
        return number_row(field.label, field.unit, refusals, text, field.what);
    case FieldShape::flour:
        return name_row(field.label, refusals, model.flours, text, field.what);
    case FieldShape::market:
        return name_row(field.label, refusals, model.markets, text, field.what);
    case FieldShape::one_of: {
        std::vector<std::string> names;
        for (const auto& word : field.words)
            names.emplace_back(word.name);
        return name_row(field.label, refusals, names, text, field.what);
    }
    case FieldShape::yes_no:
    case FieldShape::words:
        break;
    }
    text_row(field.label, refusals, text, field.what);
}

void field_rows(PlantDraft& draft, const app::SettingUpModel& model, const Refusals& refusals,
                std::vector<std::string>& labels) {
    const auto fields = plant_fields(draft.kind);
    for (const auto key : asked_keys(draft.kind)) {
        const auto at =
            std::find_if(fields.begin(), fields.end(), [&](const PlantField& f) { return f.key == key; });
        if (at == fields.end())
            continue;
        labels.emplace_back(at->label);
        field_row(*at, draft.texts[std::string(key)], model, refusals);
    }
}

// A flour's usual specification

constexpr std::array usual_lines{Property::protein, Property::moisture, Property::ash,
                                 Property::falling_number, Property::absorption};

auto line_of(PlantDraft& draft, Property property) {
    const auto& kind = traits(property);
    return std::find_if(draft.windows.begin(), draft.windows.end(), [&](const WindowDraft& line) {
        return line.method.empty() && (same_words(line.property, kind.name) || line.property == kind.key);
    });
}

/// "Specification 2, lowest" at the line of the property that it is about.
Refusals by_property(const PlantDraft& draft, Refusals refusals) {
    for (auto& refusal : refusals)
        for (std::size_t i = draft.windows.size(); i-- > 0;)
            if (refusal.field.starts_with(fmt::format("Specification {}", i + 1))) {
                const auto comma = refusal.field.find(", ");
                if (comma != std::string::npos)
                    refusal.what = refusal.field.substr(comma + 2) + ": " + refusal.what;
                refusal.field = draft.windows[i].property;
                break;
            }
    return refusals;
}

void specification_rows(PlantDraft& draft, const Refusals& refusals, std::vector<std::string>& labels) {
    ui::gap(1);
    ui::hint(
        "Its specification, at 14 % moisture: what a delivery is judged by. Leave empty what you do not ask "
        "of the mill.");
    for (const auto property : usual_lines) {
        const auto& kind = traits(property);
        const std::string name(kind.name);
        labels.push_back(name);
        const auto at = line_of(draft, property);
        WindowDraft line = at == draft.windows.end() ? WindowDraft{name, "", "", ""} : *at;
        const auto before = line;
        ui::form_row({.label = name, .refusals = &refusals, .label_width = 11_em, .box_width = 19_em}, [&] {
            const auto box = [&](const std::string& label, std::string_view hint, std::string_view unit,
                                 std::string& text) {
                auto field = ui::field_in_row(label, refusals, unit, hint);
                field.width = 7_em;
                ui::number_field(field, text);
            };
            box(name + ", lowest", "lowest", "", line.low);
            box(name + ", highest", "highest", kind.unit, line.high);
        });
        if (line == before)
            continue;
        if (at == draft.windows.end())
            draft.windows.push_back(line);
        else
            *at = line;
    }
}

// What is weighed in beside flour and water

constexpr std::array<std::string_view, 2> usual_parts{"Salt", "Compressed yeast"};

/// "Ingredient Salt, amount" at the row of the ingredient.
Refusals by_ingredient(Refusals refusals) {
    for (auto& refusal : refusals)
        for (const auto name : usual_parts)
            if (refusal.field.starts_with(fmt::format("Ingredient {}", name)))
                refusal.field = name;
    return refusals;
}

void ingredient_rows(PlantDraft& draft, const Refusals& refusals, std::vector<std::string>& labels) {
    for (const auto name : usual_parts) {
        labels.emplace_back(name);
        const auto at = std::find_if(draft.ingredients.begin(), draft.ingredients.end(),
                                     [&](const IngredientDraft& row) { return same_words(row.name, name); });
        std::string percent = at == draft.ingredients.end() ? "" : at->percent;
        const auto before = percent;
        number_row(name, "% of flour", refusals, percent);
        if (percent == before)
            continue;
        if (at == draft.ingredients.end())
            draft.ingredients.push_back(
                {std::string(name), percent, usual_ingredient(name) ? "usual" : "", ""});
        else if (trimmed(percent).empty())
            draft.ingredients.erase(at);
        else
            at->percent = percent;
    }
}

void cautions(PlantKind kind) {
    if (kind == PlantKind::product)
        ui::hint(
            "Limits are law in the market it is sold in: have them confirmed by qualified staff, in "
            "Settings. "
            "No oxidant is asked for here; the product goes without until you say otherwise of it on Plant.");
    if (kind == PlantKind::line)
        ui::hint("One of the two is enough: the friction factor, or the heat of mixing.");
}

/// A line of which no bound was typed is none.
void drop_empty_lines(PlantDraft& draft) {
    std::erase_if(draft.windows, [](const WindowDraft& line) {
        return trimmed(line.low).empty() && trimmed(line.high).empty();
    });
}

std::string_view kept_words(PlantKind kind) {
    switch (kind) {
    case PlantKind::mill:
        return "Keep the mill";
    case PlantKind::flour:
        return "Keep the flour";
    case PlantKind::place:
        return "Keep the place";
    case PlantKind::line:
        return "Keep the line";
    case PlantKind::product:
        break;
    }
    return "Keep the product";
}

bool keep_button(const AssistantView& view, std::string_view words, std::string_view blocked = {}) {
    return ui::button(words,
                      {.kind = ui::ButtonKind::primary,
                       .blocked = view.asked.is_waiting() ? std::string_view("is being kept") : blocked});
}

} // namespace

void plant_step(AssistantView& view, const app::SettingUpModel& model) {
    auto& form = view.plant;
    begin_plant(form, model);
    const auto& refusals = view.refusals_of(SetUpStep::plant);
    text_row("Plant", refusals, form.name, "The name on top of the window.");
    text_row("Time zone", refusals, form.zone,
             "Such as Europe/Lisbon; empty: this machine's. From the next start on.");
    const bool is_empty = trimmed(form.name).empty();
    if (!keep_button(view, "Keep the name", is_empty ? "Enter the plant's name" : ""))
        return;
    if (trimmed(form.zone) != model.time_zone)
        view.ask(app::ChangeSetting{"time_zone", std::string(trimmed(form.zone))});
    view.ask(app::ChangeSetting{"plant", std::string(trimmed(form.name))});
}

void record_step(AssistantView& view, const app::SettingUpModel& model, PlantKind kind) {
    begin_record(view, model, kind);
    auto& form = view.form_of(kind);
    const auto refusals = by_ingredient(by_property(form.draft, view.refusals_of(view.step)));
    std::vector<std::string> labels;
    field_rows(form.draft, model, refusals, labels);
    if (kind == PlantKind::flour)
        specification_rows(form.draft, refusals, labels);
    if (kind == PlantKind::product)
        ingredient_rows(form.draft, refusals, labels);
    cautions(kind);
    const std::vector<std::string_view> shown(labels.begin(), labels.end());
    ui::all_refusals(all_but(refusals, shown));
    if (!keep_button(view, kept_words(kind)))
        return;
    drop_empty_lines(form.draft);
    const bool is_new = form.record.number == 0;
    view.ask(
        app::KeepPlantRecord{form.record, form.draft, is_new ? std::nullopt : std::optional(form.before)});
}

} // namespace mellowbin::views
