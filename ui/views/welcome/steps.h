#pragma once

#include "ui/views/welcome/assistant.h"

#include <string>
#include <string_view>
#include <vector>

/// The questions of the assistant: fields, and the button that keeps what was typed.
namespace mellowbin::views {

void plant_step(AssistantView& view, const app::SettingUpModel& model);
void record_step(AssistantView& view, const app::SettingUpModel& model, PlantKind kind);
void lot_step(AssistantView& view, const app::SettingUpModel& model, Day today);
void release_step(AssistantView& view, const app::SettingUpModel& model);
void run_step(AssistantView& view, const app::SettingUpModel& model, Day today);
void card_step(AssistantView& view, const app::SettingUpModel& model, app::Intents& out);

// Rows of a question.
void text_row(std::string_view label, const Refusals& refusals, std::string& text,
              std::string_view note = {});
void number_row(std::string_view label, std::string_view unit, const Refusals& refusals, std::string& text,
                std::string_view note = {});
void day_row(std::string_view label, const Refusals& refusals, std::string& text, Day today,
             std::string_view note = {});
void name_row(std::string_view label, const Refusals& refusals, const std::vector<std::string>& names,
              std::string& name, std::string_view note = {});
/// The one name, where there is but one.
void take_only(const std::vector<std::string>& names, std::string& name);

} // namespace mellowbin::views
