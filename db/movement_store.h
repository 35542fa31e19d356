#pragma once

#include "core/stock.h"
#include "db/change.h"

#include <vector>

namespace mellowbin {

/// The append-only book of movements.
class MovementStore {
public:
    explicit MovementStore(Connection& connection) : connection_(connection) {}

    /// In the order they were written.
    [[nodiscard]] std::vector<Movement> all() const;
    /// In the order they were written, those after that one.
    [[nodiscard]] std::vector<Movement> of(LotId lot, MovementId after = {}) const;

    /// Writes the movement under a new number. Refused by possible() against what lies there now, when a silo
    /// has no room for it, and when the movement it counters was countered before or is not the same lot's,
    /// and when more would come back from dough than went there.
    Result<MovementId> append(Change& change, const Movement& movement);

private:
    Connection& connection_;
};

} // namespace mellowbin
