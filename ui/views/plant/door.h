#pragma once

#include "app/acts/notice.h"
#include "app/models/plant.h"
#include "app/models/settings.h"
#include "ui/views/plant/choices.h"

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::views {

/// The checks at the door: a line each, added, taken away and moved.
void draw_door_checks(PlantChoices& choices, const app::PlantModel& model, const app::SettingsModel& settings,
                      const app::Notice& notice, app::Intents& out);

/// Line by line, blank ones too; and back.
std::vector<std::string> lines_of(std::string_view text);
std::string joined(const std::vector<std::string>& lines);

} // namespace mellowbin::views
