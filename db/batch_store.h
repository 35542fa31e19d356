#pragma once

#include "core/batch.h"
#include "db/change.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace mellowbin {

/// Batches as they were mixed, what came of them, and the solutions their oxidant was poured from. Appended
/// only: a counter-entry is a second row, which these lists show as is_countered of the first; of what came
/// of a batch the newest row holds.
class BatchStore {
public:
    explicit BatchStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<Batch> all() const; ///< in the order they were logged
    [[nodiscard]] std::vector<Batch> of(RunId run) const;
    [[nodiscard]] std::vector<Batch> of_runs_since(Day first) const; ///< of runs of that day and later
    [[nodiscard]] std::optional<Batch> find(BatchId id) const;
    /// The movements by which the batch's flour left the stock.
    [[nodiscard]] std::vector<MovementId> uses_of(BatchId id) const;

    /// Writes the batch under a new number, by the person and at the instant of the change's line, with the
    /// movements of its flour. Refused without flour, or when the run has another batch of that number that
    /// was not countered.
    Result<BatchId> log(Change& change, const Batch& batch, std::span<const MovementId> uses);
    /// From now on this is what came of the batch; what was kept as learned of it and of later ones goes.
    /// Refused when there is none, or it was countered.
    Result<Done> set_result(Change& change, BatchId id, const BatchResult& result);
    /// Takes the batch back; its flour is the caller's to put back. What was kept as learned goes as above.
    /// Refused when there is none, or it was countered before.
    Result<Done> counter(Change& change, BatchId id, std::string_view note);

    [[nodiscard]] std::vector<StockSolution> solutions() const; ///< in the order they were made
    /// Those that were made or kept since, and the newest of each substance that was not poured away.
    [[nodiscard]] std::vector<StockSolution> solutions_since(Instant since) const;
    Result<SolutionId> make(Change& change, const StockSolution& solution);
    /// It was poured away. Refused when there is none, or it ended before.
    Result<Done> end(Change& change, SolutionId id);
    /// The counter-entry of end().
    Result<Done> keep(Change& change, SolutionId id);

private:
    Connection& connection_;
};

} // namespace mellowbin
