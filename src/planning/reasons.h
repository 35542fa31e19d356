#pragma once

#include "planning/evaluate.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::planning {

/// An added oxidant as people weigh it.
struct Dose {
    double mg_per_kg = 0;
    std::string name; ///< "ascorbic acid"
};
/// The dose of a run that stands for so much of what the problem counts in. Without one it is "oxidant", and
/// the figure stays.
using DoseNamer = std::function<Dose(int run, double ppm)>;

/// What the caller knows and the problem does not.
struct Background {
    /// Names a day of the problem; without it "day 3".
    std::function<std::string(double day)> day_in_words;
    DoseNamer dose;
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
    /// What the run would do without the lot, what that would cost and in which tier. Of a locked lot: what
    /// the run would do without the lock, empty where nothing is better; of a frozen run always empty.
    std::string next_best;
    double costs_more = 0; ///< currency that the next best costs above the plan
};

enum class TroubleKind { shortage, window, maturity };

/// What a run does not get, why, and what would cure it.
struct Trouble {
    TroubleKind kind = TroubleKind::shortage;
    int property = -1;            ///< of a window
    double amount = 0;            ///< t short; off the window in its unit, below negative; points of maturity
    std::string what;             ///< "3.2 t are short."
    std::vector<std::string> why; ///< a sentence each
    /// A sentence each; may be empty. A release and a lock undone are named only where trying them out, with
    /// all other runs as planned, makes the trouble less.
    std::vector<std::string> cures;
    std::optional<double>
        order_by_day; ///< latest day of arrival of new flour for this run, if the caller knows
};

struct RunReason {
    int run = 0;
    int possible_lots = 0; ///< lots no rule forbids for this run
    std::string possible;  ///< their names: "L3, L7 and L9"; empty for none
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
