#pragma once

#include "core/plant.h"
#include "db/change.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace mellowbin {

enum class Lock { open, locked };

/// Runs, how long their doughs ferment, and the lots assigned to them.
class RunStore {
public:
    explicit RunStore(Connection& connection) : connection_(connection) {}

    /// By day, line, sequence.
    [[nodiscard]] std::vector<Run> all() const;
    [[nodiscard]] std::vector<Run> between(Day first, Day last) const; ///< both days included
    [[nodiscard]] std::vector<Run> since(Day first) const;
    [[nodiscard]] std::optional<Run> find(RunId id) const;
    [[nodiscard]] std::optional<Run> find(std::string_view code) const;
    /// The newest run of the product before that day.
    [[nodiscard]] std::optional<Run> last_before(ProductId product, Day day) const;
    /// Whether any run was planned for a day before that one, of all years.
    [[nodiscard]] bool has_before(Day day) const;
    /// By run, the larger first.
    [[nodiscard]] std::vector<Assignment> assignments() const;
    [[nodiscard]] std::vector<Assignment>
    assignments_since(Day first) const; ///< of runs of that day and later
    [[nodiscard]] std::vector<Assignment> assignments_of(RunId run) const;

    /// Flour of deliveries to come that the plan has for runs; by run, the larger first.
    [[nodiscard]] std::vector<Promise> promises() const;
    [[nodiscard]] std::vector<Promise> promises_since(Day first) const; ///< of runs of that day and later
    [[nodiscard]] std::vector<Promise> promises_of(RunId run) const;

    /// Adds a run without a number, overwrites one that has it. Refused when another run bears the code.
    Result<RunId> save(Change& change, const Run& run);
    /// Takes the run with its assignments and promises off the plan. Refused when flour was already used for
    /// it.
    Result<Done> remove(Change& change, RunId run);

    /// Puts the assignments in the place of the open ones of these runs, and the promises in the place of all
    /// of theirs; locked assignments stay as they are. Refused when an assignment differs from a locked one
    /// of the same run and lot, when a promise is of a delivery that came or was called off, or when either
    /// is for a run not named.
    Result<Done> replace_assignments(Change& change, std::span<const RunId> runs,
                                     std::span<const Assignment> assignments,
                                     std::span<const Promise> promises = {});
    /// Puts these in the place of all that the runs have, locked or not: for a change by hand. Refused when
    /// one is for a run not named.
    Result<Done> set_assignments(Change& change, std::span<const RunId> runs,
                                 std::span<const Assignment> assignments, std::span<const Promise> promises);
    /// Refused when there is no such assignment.
    Result<Done> set_lock(Change& change, RunId run, LotId lot, Lock lock);

private:
    Connection& connection_;
};

} // namespace mellowbin
