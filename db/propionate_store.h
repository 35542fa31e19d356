#pragma once

#include "core/limit.h"
#include "core/limit_update.h"
#include "db/change.h"

#include <span>
#include <vector>

namespace mellowbin {

/// The law on propionates in bread as this plant holds it.
class PropionateStore {
public:
    explicit PropionateStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<PropionateRow> rows() const;

    /// Does what update_of() says is due of the shipped rows.
    LimitUpdate<PropionateRow> seed(Change& change, std::span<const PropionateRow> shipped,
                                    std::span<const Correction<PropionateRow>> corrections = {});
    /// Adds a row without a number, overwrites one that has it. Its number.
    std::int64_t save(Change& change, const PropionateRow& row);

private:
    Connection& connection_;
};

} // namespace mellowbin
