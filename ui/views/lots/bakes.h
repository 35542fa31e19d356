#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "ui/views/common/take_back.h"
#include "ui/views/lots/bake_form.h"

#include <optional>
#include <set>
#include <string>

namespace mellowbin::views {

/// A lot's loaves on its sheet: what they say of each oxidant, and the next one to be logged.
struct LotBakes {
    BakeForm form;
    std::set<std::string> as_table; ///< ladders whose curve is shown as a table
};

/// `question` opens over the screen when a loaf is to be withdrawn.
void draw_bakes(LotBakes& view, const app::LotSheet& sheet, std::optional<TakeBack>& question, Day today,
                const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
