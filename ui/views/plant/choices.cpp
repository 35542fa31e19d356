#include "ui/views/plant/choices.h"

#include "app/acts/settings.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

std::string who_changed(const app::SettingRow& row) {
    return row.since.empty() ? row.who : fmt::format("by {}, {}", row.who, row.since);
}

struct ChoiceWords {
    std::string_view label, note;
    ui::Length label_width = 13_em;
};

/// One choice with its own buttons, once something is typed.
void choice_row(PlantChoices& choices, const app::SettingRow& row, const ChoiceWords& words, bool is_number,
                const app::Notice& notice, app::Intents& out) {
    const auto kept = choices.typed.find(row.key);
    std::string text = kept == choices.typed.end() ? row.value : kept->second;
    const auto buttons = [&] {
        if (!choices.typed.contains(row.key))
            return;
        if (ui::button("Keep", {.kind = ui::ButtonKind::primary}))
            choices.ask(row.key, text, notice, out);
        if (ui::button("As it stands", {.kind = ui::ButtonKind::quiet}))
            choices.forget(row.key);
    };
    const auto box = [&] {
        auto field = ui::field_in_row(row.label, choices.asked.refusals, row.unit, row.when_empty);
        if (is_number)
            field.width = 7.5_em;
        field.enter = ui::Enter::entered;
        const auto edited = is_number ? ui::number_field(field, text) : ui::text_field(field, text);
        if (edited.changed && text == row.value)
            choices.forget(row.key);
        else if (edited.changed)
            choices.typed[row.key] = text;
        if (edited.entered && choices.typed.contains(row.key))
            choices.ask(row.key, text, notice, out);
    };
    ui::scope(row.key, [&] {
        ui::form_row({.label = words.label,
                      .field = row.label,
                      .refusals = &choices.asked.refusals,
                      .note = words.note,
                      .label_width = words.label_width,
                      .box_width = is_number ? 13.5_em : 18_em,
                      .more_width = 12_em},
                     box, buttons);
    });
}

/// "Own error of a test: Extensibility" -> "Extensibility"
std::string test_of(const app::SettingRow& row) {
    const auto colon = row.label.find(": ");
    return colon == std::string::npos ? row.label : row.label.substr(colon + 2);
}

} // namespace

const app::SettingRow* choice_named(const app::SettingsModel& model, std::string_view key) {
    const auto at = std::find_if(model.settings.begin(), model.settings.end(),
                                 [&](const app::SettingRow& row) { return row.key == key; });
    return at == model.settings.end() ? nullptr : &*at;
}

void PlantChoices::take_answer(const app::Notice& notice) {
    if (asked.is_done(notice))
        typed.erase(sent);
}

void PlantChoices::ask(const std::string& key, const std::string& value, const app::Notice& notice,
                       app::Intents& out) {
    sent = key;
    asked.ask(notice);
    out.emplace_back(app::ChangeSetting{key, value});
}

void PlantChoices::forget(const std::string& key) {
    typed.erase(key);
    if (sent == key)
        asked.refusals.clear();
}

void draw_laboratory(PlantChoices& choices, const app::SettingsModel& model, const app::Notice& notice,
                     app::Intents& out) {
    ui::filling_panel("Your laboratory's own error of a test", [&] {
        ui::hint(
            "Standard deviation of one test by your laboratory's duplicates. A retest counts so much more "
            "or less in how far a lot has matured. Empty: as published, which is an assumption.");
        ui::gap(1);
        for (const auto& row : model.settings)
            if (row.is_test_error)
                choice_row(choices, row, {test_of(row), who_changed(row)}, true, notice, out);
    });
}

bool draw_the_plant(PlantChoices& choices, const app::SettingsModel& model, const app::Notice& notice,
                    app::Intents& out) {
    bool is_led_on = false;
    ui::filling_panel("The plant", [&] {
        for (const std::string_view key : {"plant", "time_zone"})
            if (const auto* row = choice_named(model, key))
                choice_row(choices, *row, {row->label, row->what}, false, notice, out);
        ui::gap(1);
        ui::hint(
            "What else the plant has chosen (tolerances, units at the mixer, prices, how a plan is weighed, "
            "from when flour counts as warm) stands on Settings, each with who changed it.");
        is_led_on = ui::button("Settings: the plant's choices");
    });
    return is_led_on;
}

} // namespace mellowbin::views
