#include "app/acts/print_plan.h"

#include "app/acts/intent.h"
#include "app/acts/paper_given.h"
#include "app/acts/state.h"
#include "app/models/plan_sheet.h"

#include <fmt/format.h>

namespace mellowbin::app {

Result<Told> carry_out(State& state, const PrintPlan& intent) {
    auto to = intent.other;
    to.file = intent.path;
    return give_sheet(state, plan_sheet(state.plan, make_paper_head(state)), to,
                      {"Plan", "plan-" + iso(state.plan.from)});
}

} // namespace mellowbin::app
