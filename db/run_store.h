#pragma once

#include "core/plant.h"
#include "db/change.h"

#include <span>
#include <vector>

namespace mellowbin {

enum class Lock { open, locked };

/// Runs and the lots assigned to them.
class RunStore {
public:
    explicit RunStore(Connection& connection) : connection_(connection) {}

    /// By day, line, sequence.
    [[nodiscard]] std::vector<Run> all() const;
    [[nodiscard]] std::vector<Run> between(Day first, Day last) const; ///< both days included
    /// By run, the larger first.
    [[nodiscard]] std::vector<Assignment> assignments() const;
    [[nodiscard]] std::vector<Assignment> assignments_of(RunId run) const;

    /// Adds a run without a number, overwrites one that has it. Refused when another run bears the code.
    Result<RunId> save(Change& change, const Run& run);
    /// Takes the run and its assignments off the plan. Refused when flour was already used for it.
    Result<Done> remove(Change& change, RunId run);

    /// Puts the assignments in the place of the open ones of these runs; locked ones stay as they are.
    /// Refused when an assignment differs from a locked one of the same run and lot, or is for a run not
    /// named.
    Result<Done> replace_assignments(Change& change, std::span<const RunId> runs,
                                     std::span<const Assignment> assignments);
    /// Refused when there is no such assignment.
    Result<Done> set_lock(Change& change, RunId run, LotId lot, Lock lock);

private:
    Connection& connection_;
};

} // namespace mellowbin
