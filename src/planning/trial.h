#pragma once

#include "planning/evaluate.h"

#include <optional>
#include <vector>

namespace mellowbin::planning {

/// What became of a run, and of a second one, when something was tried.
struct Tried {
    RunResult run;
    Use use;                        ///< of the run, by the lots of the whole problem
    std::optional<RunResult> other; ///< the run whose lock was undone, if it is another one
    double dearer = 0; ///< what the plan costs more, in currency: lot changes on the line and waste included
};

/// Tries a change on one or two runs with all others as planned: what it would do is found by planning these
/// runs anew from the flour that is left, not guessed.
class Trial {
public:
    /// The plan's uses and evaluation; all three must outlive the trial.
    Trial(const Problem& problem, const std::vector<Use>& uses, const Evaluation& evaluation)
        : p_(problem), uses_(uses), e_(evaluation) {}

    /// An open run without a lot that is not locked to it.
    [[nodiscard]] Tried without_lot(int run, int lot) const;
    /// The run if nothing forbade the lot; nothing where the lot lacks a figure.
    [[nodiscard]] std::optional<Tried> with_lot_allowed(int run, int lot) const;
    /// The run, and the run that holds the lock, if the lock were undone.
    [[nodiscard]] Tried without_lock(int run, const Lock& lock) const;

private:
    const Problem& p_;
    const std::vector<Use>& uses_;
    const Evaluation& e_;
};

} // namespace mellowbin::planning
