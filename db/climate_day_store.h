#pragma once

#include "core/climate.h"
#include "db/connection.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What a day of a place came to, in numbers that this store does not read.
struct KeptClimateDay {
    PlaceId place;
    Day day; ///< UTC
    std::string numbers;
    friend bool operator==(const KeptClimateDay&, const KeptClimateDay&) = default;
};

/// Days of places' climates, derived from the readings and what is assumed of the places: no record, so that
/// no line of the journal tells of them, and whoever misses one makes it anew. The stores of readings and
/// places forget what their writing makes untrue, in the same change.
class ClimateDayStore {
public:
    explicit ClimateDayStore(Connection& connection) : connection_(connection) {}

    /// Of a place, by day, `until` not included; those of another form are passed over.
    [[nodiscard]] std::vector<KeptClimateDay> days(PlaceId place, Day from, Day until,
                                                   std::string_view form) const;

    /// Keeps the days, each in place of the one that was kept, in a transaction of its own. They were made
    /// from the book as of this line of its journal: where lines were written since, nothing is kept. Whether
    /// they are.
    bool keep(const std::vector<KeptClimateDay>& days, std::string_view form, std::int64_t version);

    // Within a change.
    void forget(PlaceId place);
    /// From the day of one instant to the day of another, both included.
    void forget(PlaceId place, Instant from, Instant until);

private:
    Connection& connection_;
};

} // namespace mellowbin
