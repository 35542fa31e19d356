#pragma once

#include "core/plant.h"
#include "db/change.h"

#include <optional>
#include <vector>

namespace mellowbin {

/// Flour that is to come, and flour that is spoken for.
class SupplyStore {
public:
    explicit SupplyStore(Connection& connection) : connection_(connection) {}

    /// In the order they were ordered; those that came or were called off too.
    [[nodiscard]] std::vector<ExpectedDelivery> expected() const;
    /// Those that are to come, or were to come on that day or later.
    [[nodiscard]] std::vector<ExpectedDelivery> expected_since(Day first) const;
    [[nodiscard]] std::optional<ExpectedDelivery> find(ExpectedId id) const;
    /// Those that hold, in the order they were made.
    [[nodiscard]] std::vector<Reservation> reservations() const;

    /// Adds the delivery under a new number, which its code is made of ("E-3"); the record as it is then.
    Result<ExpectedDelivery> expect(Change& change, ExpectedDelivery delivery);
    /// The delivery came or was called off; what runs were promised of it is promised no more. Refused when
    /// there is none of that number or it ended before.
    Result<Done> end(Change& change, ExpectedId id);
    /// The counter-entry: it is expected again as it stood, with no promises. Refused when it is expected.
    Result<Done> expect_again(Change& change, ExpectedId id);

    /// Adds the reservation under a new number. One with a product keeps no grams back.
    Result<ReservationId> reserve(Change& change, const Reservation& reservation);
    /// It holds no more. Refused when there is none of that number or it ended before.
    Result<Done> end(Change& change, ReservationId id);

private:
    Connection& connection_;
};

} // namespace mellowbin
