#pragma once

#include "app/acts/intent.h"
#include "app/acts/notice.h"
#include "app/models/settings.h"
#include "ui/views/common/form.h"
#include "ui/widgets/table.h"

#include <cstdint>

namespace mellowbin::views {

/// How far two laboratories' results may lie apart: the plant's own rows and the published ones.
struct PrecisionPage {
    ui::TableState table;
    Form<std::int64_t, TestPrecisionDraft> form; ///< by the number that the table knows a row by; 0: one more
};

/// The number that the table knows a line by: the plant's own, or below 0 a published one by its place.
std::int64_t record_of(const app::SettingsModel& model, std::size_t line);

void draw(PrecisionPage& page, const app::SettingsModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
