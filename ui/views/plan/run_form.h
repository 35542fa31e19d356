#pragma once

#include "app/acts/notice.h"
#include "app/models/plan.h"
#include "ui/views/common/form.h"

#include <cstdint>
#include <string>

/// A run to add, as typed.
namespace mellowbin::views {

struct RunForm {
    bool is_open = false;
    int product = -1; ///< index into the model's products
    int line = -1;    ///< index into the model's line names
    std::string day, batches;
    int first_product = -1; ///< when it was opened
    std::string first_day;
    bool wants_focus = false; ///< it was opened just now
    Asked added;

    /// Opens it for a run on this day; what was typed before stays.
    void open(const app::PlanModel& model, const std::string& iso_day);
    /// For a run on this line and day of the board.
    void open_at(const app::PlanModel& model, int board_line, int board_day);
    /// Added, it closes; refused, it stays as typed with the refusals beside its fields.
    void take_answer(const app::Notice& notice);
};

void draw(RunForm& form, const app::PlanModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
