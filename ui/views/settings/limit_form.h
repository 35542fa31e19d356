#pragma once

#include "app/acts/intent.h"
#include "app/acts/notice.h"
#include "app/models/settings.h"
#include "ui/views/common/form.h"

#include <cstdint>

namespace mellowbin::views {

/// The number that a table knows a limit by: the two lists number their rows apart.
std::int64_t record_of(LimitRef limit);

/// Corrections of limits as typed, by their record.
using LimitForm = Form<std::int64_t, LimitDraft>;

/// The button that opens the form of a limit; opened, its fields with the refusals beside those they name.
void draw(LimitForm& form, const app::LimitLine& line, const app::SettingsModel& model,
          const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
