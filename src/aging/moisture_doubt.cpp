#include "aging/moisture_doubt.h"

#include "aging/flour_in_air.h"
#include "core/literature/constants.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

/// Over all stays from the measurement on, weighed by their shares of the flour.
struct Way {
    double time_constants = 0; ///< of the drift, that have gone by
    double days = 0;
    double measured_days = 0; ///< of them, with a logger's readings
};

Way way_of(const StoragePath& path, double from, double until) {
    Way way;
    for (const auto& stay : path) {
        const double begin = std::max(stay.from, from), end = std::min(stay.until, until);
        if (end <= begin)
            continue;
        way.days += stay.share * (end - begin);
        way.time_constants += stay.share * (end - begin) / drift_days(stay.climate->air());
        way.measured_days += stay.share * stay.climate->measured_days(begin, end);
    }
    return way;
}

/// Standard deviation of the equilibrium that the flour drifts to, points.
double equilibrium_doubt(const Way& way, bool is_humidity_known) {
    const double by_humidity = is_humidity_known ? lit::aging_stated_humidity_doubt.value *
                                                       (way.days > 0 ? 1 - way.measured_days / way.days : 1)
                                                 : lit::aging_unknown_humidity_doubt.value;
    return std::hypot(lit::aging_isotherm_doubt.value, lit::aging_isotherm_humidity.value * by_humidity);
}

} // namespace

double moisture_doubt(const StoragePath& path, const KnownMoisture& known, double days) {
    const auto way = way_of(path, known.at, days);
    if (way.time_constants <= 0)
        return 0;
    const auto done = [&](double slower) { return -std::expm1(-way.time_constants / slower); };
    const auto told = moisture_on(path, known, days);
    const double moved = told ? told->value() - known.moisture.value() : 0;
    const double gsd = lit::aging_drift_time_gsd.value;
    const double by_pace = moved / done(1) * (done(1 / gsd) - done(gsd)) / 2;
    return std::hypot(done(1) * equilibrium_doubt(way, told.has_value()), by_pace);
}

} // namespace mellowbin::aging
