#pragma once

#include <optional>
#include <vector>

namespace mellowbin::planning {

/// Flour that a run does not get from what there is.
struct MissingFlour {
    int kind = 0;                    ///< which flour, in the caller's count
    double day = 0;                  ///< of the run, from the start of the horizon
    double tonnes = 0;               ///< above zero
    std::optional<double> arrive_by; ///< latest day on which it could come and be mature; none: not ever
};

/// Flour of one kind to be ordered for the runs of one week.
struct FlourOrder {
    int kind = 0;
    double tonnes = 0;
    std::vector<int> missing; ///< indices into what was asked, by day
    double first_day = 0;     ///< of its first run
    /// Latest day on which all of it can come and be mature for every run of it; none: too late for that.
    std::optional<double> arrive_by;
};

/// What to order: the missing flour by kind and calendar week of the runs. Flour that can still mature is
/// never put together with flour that comes too late for it, so that no order is called too late for the sake
/// of one run. By latest day of arrival, those that are too late first. `weekday` is that of day 0, Monday 0.
std::vector<FlourOrder> orders_for(const std::vector<MissingFlour>& missing, double today, int weekday);

} // namespace mellowbin::planning
