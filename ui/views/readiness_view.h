#pragma once

#include "app/intents.h"
#include "app/read_models.h"
#include "ui/views/readiness_rows.h"
#include "ui/widgets/ui.h"

#include <optional>
#include <string>

/// Lots as bands over days: which are young, ready, past their best, and where runs want them.
namespace mellowbin::views {

struct ReadinessView {
    RowWish wish;
    bool as_table = false;
    ui::TimeAxis axis;
    ui::TableState table;
    std::string looked_at; ///< the day as typed
    Refusals refusals;     ///< of the day as typed

    std::optional<Day> shown_as_of; ///< the model's, when the day's field and line were last set from it
    std::optional<LotId> chosen;
    ShownRows shown;
};

void draw(ReadinessView& view, const app::ReadinessModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
