#pragma once

#include "aging/storage_path.h"

#include <optional>
#include <string>
#include <vector>

/// What the air of its places does to stored flour beside aging it: moisture, water activity, condensation.
namespace mellowbin::aging {

/// Relative humidity of air in equilibrium with flour: flour's own law within its range, outside it the
/// modified Henderson equation of hard wheat (an assumption), as equilibrium_moisture().
RelativeHumidity water_activity(Moisture moisture, Celsius temperature);

/// The temperature at which air of this humidity begins to wet a surface; Magnus form, within 0.35 C from -40
/// to 60 C (Alduchov & Eskridge 1996). Humidity above 0.
Celsius dew_point(Celsius air, RelativeHumidity humidity);

/// The newest moisture that was measured of a lot.
struct KnownMoisture {
    Moisture moisture;
    double at; ///< days
};
/// Moisture at a moment, by the drift towards the air's equilibrium in each place; nothing where the air's
/// humidity is not known on the way, or before it was measured. Of a split lot: the mean, as if it were mixed
/// at each move.
std::optional<Moisture> moisture_on(const StoragePath& path, const KnownMoisture& known, double days);
/// Temperature of the flour itself, which follows the air with a lag; on its arrival taken as that of its
/// first place.
Celsius flour_temperature_on(const StoragePath& path, double days);

struct StorageAlarm {
    bool is_stop; ///< else: it needs a look
    std::string words;
};
/// Of a lot as it is by the prediction: moisture, water activity. Empty: nothing to say.
std::vector<StorageAlarm> moisture_alarms(Moisture moisture, Celsius flour_temperature, bool is_measured);
/// Whether the air wetted the flour, or nearly did, within the days before a moment.
std::optional<StorageAlarm> condensation_alarm(const StoragePath& path, double days);

} // namespace mellowbin::aging
