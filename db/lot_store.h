#pragma once

#include "core/lot.h"
#include "core/stock.h"
#include "db/change.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace mellowbin {

/// A lot as it came, with the movement that put it in its place.
struct Delivered {
    Lot lot;
    Movement receipt; ///< its lot is filled in when the lot gets its number
};

class LotStore {
public:
    explicit LotStore(Connection& connection) : connection_(connection) {}

    /// Every lot with its certificate and the mill's additions, in the order they were taken in.
    [[nodiscard]] std::vector<Lot> all() const;
    [[nodiscard]] std::optional<Lot> find(LotId id) const;
    [[nodiscard]] std::optional<Lot> find(MillId mill, std::string_view code) const;

    /// Adds the lot under a new number. Refused under "Lot number" when the mill has used the code before.
    Result<LotId> add(Change& change, const Lot& lot);
    /// Adds the lot and its receipt.
    Result<LotId> take_in(Change& change, const Delivered& delivered);
    /// The lots of one delivery, all or none; every refusal at once.
    Result<std::vector<LotId>> take_in(Change& change, std::span<const Delivered> delivery);

    /// Takes the lot as the book holds it now from its state to another by core's rules, by the person and at
    /// the instant of the change's line; the lot as it is then.
    Result<Lot> set_state(Change& change, LotId id, LotState to, std::string reason);

private:
    Connection& connection_;
};

} // namespace mellowbin
