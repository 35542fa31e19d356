#pragma once

#include "core/climate.h"
#include "db/change.h"

#include <map>
#include <optional>
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
    [[nodiscard]] std::vector<ClimateLog> logs_since(Instant since) const; ///< that were read since
    [[nodiscard]] std::optional<ClimateLog> find(ClimateLogId id) const;

    /// By instant, each instant once: where logs overlap, the one read later holds.
    [[nodiscard]] std::vector<ClimateReading> readings(PlaceId place) const;
    /// Only those from one instant to another, both included.
    [[nodiscard]] std::vector<ClimateReading> readings(PlaceId place, Instant from,
                                                       std::optional<Instant> until = {}) const;
    /// Those from an instant up to another, this one not included, with readings_beside more on either side
    /// where there are so many: all that says how they join.
    [[nodiscard]] std::vector<ClimateReading> readings_around(PlaceId place, Instant from,
                                                              std::optional<Instant> until = {}) const;
    /// The same of every place that has any.
    [[nodiscard]] std::map<PlaceId, std::vector<ClimateReading>> all_readings() const;

    // Both forget the days that the log changes (ClimateDayStore).

    /// Writes a log under a new number, by the person and at the instant of the change's line; its readings
    /// are by instant, each instant once. Refused without any.
    Result<ClimateLogId> add(Change& change, const ClimateLog& log, std::span<const ClimateReading> readings);
    /// Takes a log back, by the person and at the instant of the change's line. Refused when there is none of
    /// that number, or it was withdrawn before.
    Result<Done> withdraw(Change& change, ClimateLogId id, std::string_view reason = {});

private:
    void forget_days(PlaceId place, Instant first, Instant last);

    Connection& connection_;
};

} // namespace mellowbin
