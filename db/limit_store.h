#pragma once

#include "core/limit.h"
#include "core/limit_update.h"
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

    /// Adds the markets that the book does not hold yet, and does what update_of() says is due of the rows.
    LimitUpdate<LimitRow> seed(Change& change, std::span<const Market> markets,
                               std::span<const LimitRow> shipped,
                               std::span<const Correction<LimitRow>> corrections = {});
    /// Adds a row without a number, overwrites one that has it.
    Result<std::int64_t> save(Change& change, const LimitRow& row);

private:
    Connection& connection_;
};

} // namespace mellowbin
