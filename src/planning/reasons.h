#pragma once

#include "planning/evaluate.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::planning {

/// What the caller knows and the problem does not.
struct Background {
    /// Names a day of the problem; without it "day 3".
    std::function<std::string(double day)> day_in_words;
    /// Days a delivery of flour fit for this run needs between arrival and the run, to be judged and to
    /// mature; nullopt where not known.
    std::function<std::optional<double>(int run)> days_to_ready;
    double today = 0; ///< in days from the start of the horizon
};

/// Why one lot stands in one run.
struct AssignmentReason {
    int run = 0;
    int lot = 0;
    std::string why; ///< one or two short sentences
    std::string
        next_best; ///< what the run would do without the lot, and what that would cost; empty for a kept one
};

enum class TroubleKind { shortage, window, maturity };

/// What a run does not get, why, and what would cure it.
struct Trouble {
    TroubleKind kind = TroubleKind::shortage;
    int property = -1;            ///< of a window
    double amount = 0;            ///< t short; off the window in its unit, below negative; points of maturity
    std::string what;             ///< "3.2 t are short."
    std::vector<std::string> why; ///< a sentence each
    std::vector<std::string> cures; ///< a sentence each; may be empty
    std::optional<double>
        order_by_day; ///< latest day of arrival of new flour for this run, if the caller knows
};

struct RunReason {
    int run = 0;
    int possible_lots = 0; ///< lots no rule forbids for this run
    std::vector<std::string>
        forbidden; ///< one sentence a rule: which lots it forbids, except flour of another kind
    std::vector<Trouble> troubles;
};

struct Reasons {
    std::vector<AssignmentReason> assignments; ///< as Plan::assignments
    std::vector<RunReason> runs;               ///< as Problem::runs

    [[nodiscard]] const AssignmentReason* of(int run, int lot) const;
};

/// Says in words why the plan is as it is. The plan must be of this problem and keep its rules.
Reasons explain(const Problem& problem, const Plan& plan, const Background& background = {});

} // namespace mellowbin::planning
