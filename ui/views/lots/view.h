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
#include "ui/views/lots/source.h"
#include "ui/widgets/table.h"

#include <optional>
#include <set>
#include <string>

namespace mellowbin::views {

/// All lots in a table, one opened beside it.
struct LotsView {
    std::string filter; ///< as typed
    std::string filter_before;
    ui::TableState table;
    std::optional<LotColumn> sorted_by;
    std::set<LotColumn> left_out; ///< columns the person does not want to see
    bool chooses_columns = false;
    bool wants_focus = false; ///< for the table: the screen was turned to, or a sheet was closed
    bool shows_sheet = false;
    bool was_opened = false;   ///< the table stood beside a sheet in the frame before
    bool enters_sheet = false; ///< the focus goes to its first act
    int page = 0;              ///< of the sheet
    bool shows_every_result = false;
    bool shows_pallets = false;
    bool shows_curve_as_table = false;
    LotId opened;                        ///< seen in the model last
    std::optional<LotQuestion> question; ///< open over the screen
    RetestForm retest;
    LotBakes bakes;
    SourceSaving saving;                 ///< of the opened lot's certificate
    std::optional<TakeBack> withdrawing; ///< a retest or a loaf; open over the screen
    SortedLots sorted;
    int list = now; ///< lots of now, or of the past
    PastLotsView past;
    static constexpr int now = 0;
    static constexpr int last_page = 4; ///< of the sheet
};

/// Retests ask for what Readiness knows of them: the day, the places, what can be tested, the opened lot's
/// results.
void draw(LotsView& view, const app::LotsModel& model, const app::ReadinessModel& readiness,
          const app::Notice& notice, app::Intents& out);

/// The opened lot: how it stands, what can be done, four facts, and then its pages.
void draw_sheet(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
                const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
