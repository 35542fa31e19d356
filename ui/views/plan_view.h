#pragma once

#include "app/intents.h"
#include "app/read_models.h"
#include "ui/views/run_form.h"
#include "ui/widgets/ui.h"

#include <optional>
#include <string>
#include <utility>

/// Lines over days: which lots go into which run, what is short, and why.
namespace mellowbin::views {

struct PlanView {
    std::string from; ///< as typed
    int reach = 1;    ///< index into 1, 7, 14 and 28 days
    Refusals refusals;
    bool as_table = false;
    bool all_shortages = false;
    ui::BoardState board;
    ui::TableState table;

    RunForm form;
    std::optional<RunId> dropping; ///< asked about

    /// The model's first day and days, when the fields were last set.
    std::optional<std::pair<Day, int>> shown;

    [[nodiscard]] int days() const;               ///< the number of days chosen
    void choose(std::optional<std::int64_t> run); ///< on the board and in the table
};

void draw(PlanView& view, const app::PlanModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
