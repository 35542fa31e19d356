#pragma once

#include "core/climate.h"
#include "db/change.h"

#include <map>
#include <span>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What loggers measured in the places. Appended only: a withdrawal is a second row, which logs() shows as
/// is_withdrawn of the first, and whose readings count no more.
class ClimateStore {
public:
    explicit ClimateStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<ClimateLog> logs() const; ///< in the order in which they were read

    /// By instant, each instant once: where logs overlap, the one read later holds.
    [[nodiscard]] std::vector<ClimateReading> readings(PlaceId place) const;
    /// The same of every place that has any.
    [[nodiscard]] std::map<PlaceId, std::vector<ClimateReading>> all_readings() const;

    /// Writes a log under a new number, by the person and at the instant of the change's line; its readings
    /// are by instant, each instant once. Refused without any.
    Result<ClimateLogId> add(Change& change, const ClimateLog& log, std::span<const ClimateReading> readings);
    /// Takes a log back, by the person and at the instant of the change's line. Refused when there is none of
    /// that number, or it was withdrawn before.
    Result<Done> withdraw(Change& change, ClimateLogId id, std::string_view reason = {});

private:
    Connection& connection_;
};

} // namespace mellowbin
