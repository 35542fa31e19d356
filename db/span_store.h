#pragma once

#include "core/retest.h"
#include "core/stock.h"
#include "db/connection.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin {

/// A lot by its names.
struct LotNames {
    std::string code, mill, flour;
};

/// A movement with the names of what it is about.
struct NamedMovement {
    Movement movement;
    LotNames lot;
    std::string from, to; ///< places; empty: none
    std::string run;      ///< its code; empty: none
};

/// What was done over a span of time, however long ago, with its names: for lists on their way out. What is
/// asked for seldom may walk a table; the engine walks it, and gives only what is of the span.
class SpanStore {
public:
    explicit SpanStore(Connection& connection) : connection_(connection) {}

    /// From one instant to before the other, in the order they were written.
    [[nodiscard]] std::vector<NamedMovement> movements(Instant from, Instant before) const;
    /// Taken on these days, both included; by day, then in the order they were logged; withdrawn ones too.
    [[nodiscard]] std::vector<Retest> retests(Day from, Day until) const;
    /// When the batch was taken back; nothing where it stands.
    [[nodiscard]] std::optional<Instant> countered_at(BatchId batch) const;
    /// Of a lot, however long ago; "?" where the book has none of this number.
    [[nodiscard]] LotNames names_of(LotId lot) const;

private:
    Connection& connection_;
};

} // namespace mellowbin
