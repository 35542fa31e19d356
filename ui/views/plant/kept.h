#pragma once

#include "app/models/plant.h"
#include "ui/views/common/keep.h"
#include "ui/views/plant/view.h"

namespace mellowbin::views {

/// Records and choices of the plant as typed.
void keep_begun(KeptWriter& k, const PlantView& view, const app::PlantModel& model,
                const app::SettingsModel& settings);
/// The form of the first of them is open.
void take_up(KeptReader& k, PlantView& view);

} // namespace mellowbin::views
