#pragma once

#include "core/rework.h"
#include "db/change.h"

#include <optional>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What of a batch went into a later one. Appended only: a counter-entry is a second row, which these lists
/// show as is_countered of the first.
class ReworkStore {
public:
    explicit ReworkStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::optional<Rework> find(ReworkId id) const;
    /// What was put back into the batch, in the order it was logged.
    [[nodiscard]] std::vector<Rework> into(BatchId batch) const;
    /// What was put back of the batch, in the order it was logged.
    [[nodiscard]] std::vector<Rework> of(BatchId batch) const;

    /// Writes it under a new number, by the person and at the instant of the change's line. Refused where one
    /// of the batches is not there or was countered, and by what_stands_against() with what the book holds
    /// now.
    Result<ReworkId> log(Change& change, const Rework& rework);
    /// Refused when there is none of that number, or it was countered before.
    Result<Done> counter(Change& change, ReworkId id, std::string_view reason);

private:
    Connection& connection_;
};

} // namespace mellowbin
