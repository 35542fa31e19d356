#pragma once

#include "core/climate.h"
#include "core/result.h"

#include <date/tz.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// What a logger's file is read against.
struct ClimateLogContext {
    const date::time_zone* zone = nullptr; ///< the plant's; none: UTC
    Instant now;
    std::optional<Instant> earliest; ///< nothing of this plant's flour existed before; not known: no check
};

/// Something of the file that gave no reading, or a reading without its humidity.
struct SetAside {
    std::size_t line = 0; ///< of the file, from 1
    std::string what;     ///< the field and what was read in it: "Temperature °C: "-999""
    std::string why;      ///< "no reading; from -40 to 60 °C is expected"
    friend bool operator==(const SetAside&, const SetAside&) = default;
};

/// A data logger's file, taken apart. Every line is a reading, one of an exact pair, or set aside.
struct ClimateFile {
    std::vector<ClimateReading> readings; ///< by instant, each instant once
    std::vector<SetAside> set_aside;      ///< by line
    std::vector<std::string> notes;       ///< columns not read, duplicates, repeated hours, a torn end
    TemperatureUnit unit{};               ///< that the head names
    std::string temperature_head;
    std::size_t before_flour = 0; ///< readings left out: this plant had no flour for long after them
};

/// The most lines a file may have: nearly four years, one a minute.
inline constexpr std::size_t most_climate_lines = 2'000'000;

/// Reads the CSV file of a data logger: columns of time (or date and time), temperature with its unit in the
/// head (°C or °F) and, if there is one, relative humidity in %, in any order; lines above the head line are
/// passed over. Times are ISO 8601, or the plant's own without an offset (to_instants() for the hours that
/// clocks repeat or skip), DD.MM.YYYY, or slashed where the whole file leaves one way to read them.
///
/// Rows come in any order. An exact pair counts once; of two different rows for one instant the first is kept
/// and the other set aside. Set aside, by line: what is no time or no number, a sensor's "no reading" (empty,
/// NaN, -999, anything outside -40 to 60 °C), a time more than an hour after now. A humidity outside 0 to
/// 100 % is missing, its temperature kept; an empty one is just missing.
///
/// What lies over 60 days before `earliest` says nothing of any flour: it is left out and counted.
///
/// Refused: no CSV in UTF-8, heads that cannot be told apart, a temperature without its unit, slashed dates
/// that can be read in two ways, a logger's clock that was wrong (why_clock_is_wrong()), no reading at all,
/// too many lines.
Result<ClimateFile> read_climate_log(std::string_view bytes, const ClimateLogContext& context);

} // namespace mellowbin::exchange
