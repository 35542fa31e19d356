#pragma once

#include "core/limit.h"
#include "db/change.h"

#include <span>
#include <vector>

namespace mellowbin {

/// The law on propionates in bread as this plant holds it.
class PropionateStore {
public:
    explicit PropionateStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<PropionateRow> rows() const;

    /// Adds the rows that the book does not hold yet, as shipped; never touches one that it holds. A row is
    /// known by its market and the bread it speaks of. How many were added.
    int seed(Change& change, std::span<const PropionateRow> rows);
    /// Adds a row without a number, overwrites one that has it. Its number.
    std::int64_t save(Change& change, const PropionateRow& row);

private:
    Connection& connection_;
};

} // namespace mellowbin
