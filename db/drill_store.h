#pragma once

#include "core/drill.h"
#include "db/change.h"

#include <optional>
#include <vector>

namespace mellowbin {

/// Drills in which a trace was timed. Appended only.
class DrillStore {
public:
    explicit DrillStore(Connection& connection) : connection_(connection) {}

    /// With its report where it has ended.
    [[nodiscard]] std::optional<Drill> find(DrillId id) const;
    /// The newest first, without their reports.
    [[nodiscard]] std::vector<Drill> newest(int count) const;

    /// Begins at the instant and by the person of the change's line; its end is not looked at.
    DrillId begin(Change& change, const Drill& drill);
    /// Ended at the instant and by the person of the change's line. Refused when there is none of that
    /// number, or it ended before. The report's cells are texts.
    Result<Done> end(Change& change, DrillId id, const DrillEnd& end);

private:
    Connection& connection_;
};

} // namespace mellowbin
