#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "ui/views/common/retest_form.h"
#include "ui/views/common/take_back.h"
#include "ui/views/lots/bakes.h"
#include "ui/views/lots/past.h"
#include "ui/views/lots/question.h"
#include "ui/views/lots/sorted.h"
#include "ui/widgets/table.h"

#include <optional>
#include <set>
#include <string>

namespace mellowbin::views {

/// All lots in a table, one opened beside it.
struct LotsView {
    std::string filter; ///< as typed
    ui::TableState table;
    std::optional<LotColumn> sorted_by;
    std::set<LotColumn> left_out; ///< columns the person does not want to see
    bool chooses_columns = false;
    bool shows_sheet = false;
    bool shows_curve_as_table = false;
    LotId opened;                        ///< seen in the model last
    std::optional<LotQuestion> question; ///< open over the screen
    RetestForm retest;
    LotBakes bakes;
    std::optional<TakeBack> withdrawing; ///< a retest or a loaf; open over the screen
    SortedLots sorted;
    int list = now; ///< lots of now, or of the past
    PastLotsView past;
    static constexpr int now = 0;
};

/// Retests ask for what Readiness knows of them: the day, the places, what can be tested, the opened lot's
/// results.
void draw(LotsView& view, const app::LotsModel& model, const app::ReadinessModel& readiness,
          const app::Notice& notice, app::Intents& out);

/// The opened lot: its state and what can be done, certificate, maturity, results, bakes, places, movements,
/// history.
void draw_sheet(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
                const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
