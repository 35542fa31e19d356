#pragma once

#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "app/models/readiness.h"
#include "ui/views/readiness/groups.h"
#include "ui/views/readiness/rows.h"
#include "ui/views/readiness/story.h"
#include "ui/widgets/ui.h"

#include <optional>
#include <string>

/// Lots as bands over days: which are young, ready, past their best, and where runs want them; beside them
/// the story of the opened lot.
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
    FlourGroups groups;

    LotId opened; ///< seen in the model last
    bool shows_story = false;
    bool was_beside = false;        ///< the lots stood beside a story in the frame before
    bool is_chosen_in_list = false; ///< by pointer or key, since the lots last moved
    LotStory story;
};

void draw(ReadinessView& view, const app::ReadinessModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
