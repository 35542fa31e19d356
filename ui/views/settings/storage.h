#pragma once

#include "app/acts/notice.h"
#include "app/models/settings.h"
#include "ui/views/common/form.h"
#include "ui/views/common/take_back.h"
#include "ui/widgets/table.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// The places: what is assumed of their climate, what loggers measured, and a logger's file to be read.
struct StoragePage {
    std::string path, place; ///< of the file to read, as typed and chosen
    Asked asked;
    std::string asked_path, asked_place; ///< what was sent last: a question is about these and no other
    std::string accept_reason;           ///< why the file counts all the same, as typed
    ui::TableState set_aside;            ///< the lines set aside of the file read last
    std::optional<TakeBack> taking_back; ///< a logger's file; open over the screen
};

void draw(StoragePage& page, const app::SettingsModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
