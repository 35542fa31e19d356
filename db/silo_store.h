#pragma once

#include "core/place_care.h"
#include "core/silo.h"
#include "db/change.h"

#include <map>
#include <optional>
#include <vector>

namespace mellowbin {

/// What is known of silos: how they give their flour, how much they take, and what was done to them. Appended
/// only. The newest zone of a silo holds for what it gave before too, since it is what the plant knows of it
/// now.
class SiloStore {
public:
    explicit SiloStore(Connection& connection) : connection_(connection) {}

    /// Of all silos. One of which nothing was said is one mixture: that misses no lot.
    [[nodiscard]] std::map<PlaceId, MixingZone> zones() const;
    /// Refused when the place is no silo.
    Result<Done> set(Change& change, PlaceId silo, const MixingZone& zone);

    /// How much each takes; those of which nobody said so are not among them.
    [[nodiscard]] std::map<PlaceId, Grams> capacities() const;
    [[nodiscard]] std::optional<Grams> capacity(PlaceId silo) const;
    /// Nothing: not known. Refused when the place is no silo.
    Result<Done> set_capacity(Change& change, PlaceId silo, std::optional<Grams> capacity);

    /// What was done, the newest first, at most so many of a silo.
    [[nodiscard]] std::vector<PlaceCare> care_of(PlaceId silo, int most) const;
    /// Writes it down, at the instant and by the person of the change's line. Refused when the place is no
    /// silo.
    Result<Done> note(Change& change, const PlaceCare& care);

private:
    [[nodiscard]] bool is_silo(PlaceId place) const;

    Connection& connection_;
};

} // namespace mellowbin
