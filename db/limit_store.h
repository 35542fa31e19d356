#pragma once

#include "core/limit.h"
#include "db/change.h"

#include <span>
#include <vector>

namespace mellowbin {

/// The law as this plant holds it.
class LimitStore {
public:
    explicit LimitStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<LimitRow> rows() const;
    [[nodiscard]] std::vector<Market> markets() const;

    /// Adds the markets and rows that the book does not hold yet, as shipped; never touches one that it
    /// holds. A row is known by its market, substance, food, status, first day, group and rule. How many were
    /// added.
    int seed(Change& change, std::span<const Market> markets, std::span<const LimitRow> rows);
    /// Adds a row without a number, overwrites one that has it.
    Result<std::int64_t> save(Change& change, const LimitRow& row);
    /// This plant has read the row in its source: by the person of the change's line. Refused when there is
    /// no such row.
    Result<Done> confirm(Change& change, std::int64_t row);

private:
    Connection& connection_;
};

} // namespace mellowbin
