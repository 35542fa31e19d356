#pragma once

#include "core/silo.h"
#include "db/change.h"

#include <map>

namespace mellowbin {

/// How silos give their flour. Appended only: the newest row of a silo holds, for what it gave before too,
/// since it is what the plant knows of the silo now.
class SiloStore {
public:
    explicit SiloStore(Connection& connection) : connection_(connection) {}

    /// Of all silos. One of which nothing was said is one mixture: that misses no lot.
    [[nodiscard]] std::map<PlaceId, MixingZone> zones() const;
    /// Refused when the place is no silo.
    Result<Done> set(Change& change, PlaceId silo, const MixingZone& zone);

private:
    Connection& connection_;
};

} // namespace mellowbin
