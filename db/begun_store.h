#pragma once

#include "core/begun_delivery.h"
#include "db/change.h"

#include <optional>
#include <vector>

namespace mellowbin {

/// Deliveries half logged that were put aside: each waits, or one window has it, until it comes in or is
/// thrown away.
class BegunStore {
public:
    explicit BegunStore(Connection& connection) : connection_(connection) {}

    /// Those that wait or that a window has, the oldest first, without their text.
    [[nodiscard]] std::vector<BegunDelivery> open() const;
    /// With its text; also one that came in or was thrown away.
    [[nodiscard]] std::optional<BegunDelivery> find(BegunId id) const;

    /// Puts a new one aside, by the person and at the instant of the change's line; of one that is held its
    /// text is replaced and it waits again. Refused where another window took it over since.
    Result<BegunId> put_aside(Change& change, const BegunDelivery& delivery, const BegunHold& from);
    /// Hands it to a window; its new hold. Refused: it is none or has ended, and, unless it is asked for from
    /// whoever has it, a window has it.
    Result<BegunHold> take_over(Change& change, BegunId id, const BegunHolder& holder, TakeFrom from);
    /// Refused where the hold is not the newest any more, with who has it.
    Result<Done> holds(Change& change, const BegunHold& hold) const;
    /// It came in. Refused as holds() does.
    Result<Done> came_in(Change& change, const BegunHold& hold);
    /// It will not come in. Refused where a window has it that is not the one of the hold.
    Result<Done> throw_away(Change& change, const BegunHold& hold);
    /// The counter-entry: it waits as it stood. Refused where it was not thrown away.
    Result<Done> bring_back(Change& change, BegunId id);

private:
    Connection& connection_;
};

} // namespace mellowbin
