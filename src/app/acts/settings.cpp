#include "app/acts/settings.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/settings.h"
#include "core/typed_text.h"
#include "db/limit_store.h"
#include "exchange/test_scan.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace mellowbin::app {
namespace {

bool is_time_zone(const std::string& name) {
    try {
        return name.empty() || date::locate_zone(name) != nullptr;
    } catch (const std::runtime_error&) {
        return false;
    }
}

/// As it is told on one line.
std::string told(const std::string& value) {
    std::string words = value.empty() ? "empty" : value;
    for (auto at = words.find('\n'); at != std::string::npos; at = words.find('\n', at))
        words.replace(at, 1, "; ");
    return words;
}

} // namespace

Result<std::string> accepted_choice(std::string_view key, std::string_view typed) {
    const SettingTraits* setting = setting_traits(key);
    if (!setting)
        return Refusal{"Setting", fmt::format("\"{}\" is not known", key), "Choose one from the list"};
    auto value = accept_setting(*setting, typed);
    if (value && key == "time_zone" && !is_time_zone(*value))
        return Refusal{std::string(setting->label), fmt::format("\"{}\" is not in the zone tables", *value),
                       "Enter a name such as Europe/Lisbon"};
    if (value && key == "scanner_separator" && !value->empty() && !exchange::may_part_elements(*value))
        return Refusal{
            std::string(setting->label),
            fmt::format("\"{}\" was read, which a lot number may have", excerpt(*value)),
            "Set the scanner to send ~, | or ^, and enter that; or <GS> where it sends just these"};
    return value;
}

Result<Told> carry_out(State& state, const ChangeSetting& intent) {
    const auto value = accepted_choice(intent.key, intent.value);
    if (!value)
        return value.refusals();
    const SettingTraits* setting = setting_traits(intent.key);
    const std::string before = Choices(state.book.settings).words(intent.key);
    const auto words = fmt::format("{}: {} (was {})", setting->label, told(*value), told(before));
    Change change = state.change("change_setting", "setting " + intent.key, words);
    SettingsStore(*state.connection).set(change, intent.key, *value, setting->unit);
    change.commit();
    return Told{words,
                Touched::nothing,
                setting->kind == SettingKind::lines
                    ? fmt::format("Undo: {} as before", setting->label)
                    : fmt::format("Undo: {} again {}", setting->label, told(before)),
                {ChangeSetting{intent.key, before}}};
}

} // namespace mellowbin::app
