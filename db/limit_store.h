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
    /// holds. A row is known by its market, substance, food, first day, group and rule: what of it the plant
    /// may correct is not among them. How many were added.
    int seed(Change& change, std::span<const Market> markets, std::span<const LimitRow> rows);
    /// Adds a row without a number, overwrites one that has it.
    Result<std::int64_t> save(Change& change, const LimitRow& row);

private:
    Connection& connection_;
};

} // namespace mellowbin
