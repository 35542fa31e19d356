#pragma once

#include "aging/storage_watch.h"

namespace mellowbin::aging {

/// How far off moisture_on() may be, or, where the air's humidity is not known, the moisture that was
/// measured: one standard deviation, points of moisture. 0 until it was measured. From the spread of flours
/// around their equilibrium, what is not known of the air's humidity, and how fast flour drifts; all three
/// are assumptions.
double moisture_doubt(const StoragePath& path, const KnownMoisture& known, double days);

} // namespace mellowbin::aging
