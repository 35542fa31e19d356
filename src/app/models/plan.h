#pragma once

#include "app/models/levers.h"
#include "app/models/plan_compare.h"
#include "app/models/plan_supply.h"
#include "app/models/planned_run.h"
#include "app/models/run_cures.h"
#include "app/plan/order_advice.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

struct PlanModel {
    enum class Standing { adopted, proposed };
    Day from, today;
    int days = 7;
    std::vector<std::string> lines;
    std::vector<PlannedRun> runs;
    Standing standing = Standing::adopted;
    bool is_planning = false;
    std::string progress; ///< "120 steps, 0.4 s, best 5 920, bound 4 050"
    std::vector<std::string>
        bounds;               ///< what is proven, tier by tier: "Flour short: nothing can be short of ..."
    bool is_supposed = false; ///< the proposal rests on suppositions
    std::vector<std::string> suppositions;    ///< in words, in the order they were made
    std::optional<PlanComparison> comparison; ///< of the proposal with the plan in the book
    std::vector<OrderAdvice> orders;
    std::vector<ExpectedRow> expected;
    std::vector<ReservedRow> reserved;
    std::string replan_words;          ///< why the plan in the book no longer holds; empty: it holds
    std::vector<std::string> withheld; ///< doses kept back by law, each with its runs: no plan mends them
    std::vector<std::string> markets, mills, flours; ///< to choose from
    std::string objective;                           ///< in words, by parts
    std::vector<std::string> changes;                ///< of a proposed plan against the adopted one
    std::vector<std::string> shortages;              ///< each with its cure: how much, from when, order by
    std::vector<std::string> products, line_names;   ///< to add a run
    std::optional<LeversModel> levers;               ///< of the run asked about
    std::optional<RunCures> cures;                   ///< of the run whose sheet is open; of a proposal none
    bool can_adopt = false;
    std::string adopt_blocked; ///< why a proposed plan cannot be adopted any more
};

struct LookedAt;
struct ProposedPlan;
struct Station;

/// All but the levers.
PlanModel make_plan(const Station& station, const LookedAt& looked_at);
std::string plan_in_words(const ProposedPlan& plan); ///< one line: what was found

} // namespace mellowbin::app
