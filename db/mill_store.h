#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/quantity.h"
#include "db/connection.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin {

/// Lots of one mill that were delivered on these days, both included.
struct MillSpan {
    MillId mill;
    Day from, until;
};

/// What became of a lot beside its state.
struct LotFate {
    LotId lot;
    bool was_held = false;     ///< at some time, by a person and not as the undo of something else
    bool is_withdrawn = false; ///< taken in by mistake: it never was a lot
};

/// A lot that came with a delivery which was expected.
struct ExpectedLot {
    LotId lot;
    std::int64_t delivery = 0; ///< number of the delivery it came with
    std::string expected;      ///< code of the expectation: "E-3"
    Day arrives;               ///< as it was expected
    Day came;
};

/// A delivery that is expected and whose day is past.
struct OverdueDelivery {
    std::string expected; ///< "E-3"
    FlourId flour;
    Grams mass;
    Day arrives;
};

/// Flour that went back to the mill.
struct ReturnedFlour {
    LotId lot;
    Grams mass;
    std::string reason, document;
    Instant at;
    std::string who;
};

/// A lot by what its own tests are judged by.
struct LotInTurn {
    LotId id;
    std::string code;
    Day delivered_on;
};

/// What is known of a mill beside its lots, their certificates and tests. Every question goes by an index,
/// and costs what there is of the mill in those days.
class MillStore {
public:
    explicit MillStore(Connection& connection) : connection_(connection) {}

    /// Lots without an entry were neither held nor withdrawn.
    [[nodiscard]] std::vector<LotFate> fates(const MillSpan& span) const;
    /// In the order of the lots; lots of deliveries that were not expected have none.
    [[nodiscard]] std::vector<ExpectedLot> expected_lots(const MillSpan& span) const;
    /// To come still, since before today.
    [[nodiscard]] std::vector<OverdueDelivery> overdue(MillId mill, Day today) const;
    /// Of lots of these days; what was countered did not go back.
    [[nodiscard]] std::vector<ReturnedFlour> returns(const MillSpan& span) const;

    /// Of a mill's flour the newest lots with own tests that stand, that came on that day or later, and
    /// before that lot where one is named; oldest first, without those that were taken in by mistake.
    [[nodiscard]] std::vector<LotInTurn> tested_in_turn(MillId mill, FlourId flour, Day since,
                                                        std::optional<LotId> before, int count) const;
    /// How many lots of the mill's flour came after that one, and before the other where one is named.
    [[nodiscard]] int came_after(const LotInTurn& lot, MillId mill, FlourId flour,
                                 std::optional<LotId> before) const;

private:
    Connection& connection_;
};

} // namespace mellowbin
