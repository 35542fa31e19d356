#pragma once

#include "app/models/settings.h"
#include "ui/views/common/keep.h"
#include "ui/views/settings/view.h"

namespace mellowbin::views {

/// Choices, corrections of limits and ingredients as typed; a logger's file about to be read.
void keep_begun(KeptWriter& k, const SettingsView& view, const app::SettingsModel& model);
void take_up(KeptReader& k, SettingsView& view, const app::SettingsModel& model);

} // namespace mellowbin::views
