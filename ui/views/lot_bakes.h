#pragma once

#include "app/intents.h"
#include "app/read_models.h"
#include "ui/views/bake_form.h"
#include "ui/views/take_back.h"

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
