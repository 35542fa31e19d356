#pragma once

#include "core/lot.h"
#include "db/change.h"

#include <optional>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What quality lets pass of lots. Appended only: the newest row of a lot holds.
class ConcessionStore {
public:
    explicit ConcessionStore(Connection& connection) : connection_(connection) {}

    /// The one that holds, over or not.
    [[nodiscard]] std::optional<Concession> of(LotId lot) const;
    /// From now on this holds of the lot, or none, by the person and at the instant of the change's line.
    void set(Change& change, LotId lot, const std::optional<Concession>& concession);

private:
    Connection& connection_;
};

/// Gives the lots, which stand in the order of their numbers, what holds of each. `of_these` names them: a
/// clause on lot_id, or empty for all.
void read_concessions(Connection& connection, std::string_view of_these, Parameters parameters,
                      std::vector<Lot>& lots);

} // namespace mellowbin
