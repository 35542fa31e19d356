#pragma once

#include "core/stock.h"
#include "db/change.h"

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// Flour that went back to the mill.
struct MillReturn {
    std::int64_t id = 0;
    LotId lot;
    MovementId movement;
    std::string reason;
    std::string document; ///< the paper it went with; may be empty
    Instant at;
    std::string who;
    bool is_taken_back = false; ///< the movement was countered
    friend bool operator==(const MillReturn&, const MillReturn&) = default;
};

/// What movements to the mill are besides grams. Appended only: a return is taken back by countering its
/// movement.
class MillReturnStore {
public:
    explicit MillReturnStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<MillReturn> of(LotId lot) const; ///< in the order they were written
    /// Writes the movement, which is of the kind `to_mill` and counters nothing, and why, on what paper, by
    /// the person and at the instant of the change's line. Refused as MovementStore::append() refuses.
    Result<MovementId> log(Change& change, const Movement& movement, std::string_view reason,
                           std::string_view document);

private:
    Connection& connection_;
};

} // namespace mellowbin
