#pragma once

#include "exchange/climate_head.h"
#include "exchange/climate_log.h"
#include "exchange/csv.h"
#include "exchange/logger_time.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// A row that gives a temperature; its instant is known once the whole file has been read.
struct ClimateRow {
    std::size_t at = 0; ///< among the table's rows
    LoggerTime time;
    ClimateReading reading;
};

/// Reads a logger's rows one by one, and keeps what is set aside on the way. The table and columns must
/// outlive it.
class ClimateRows {
public:
    ClimateRows(const CsvTable& table, const ClimateColumns& columns) : table_(table), columns_(columns) {}

    /// The row's reading, its instant still open; nothing where it is set aside.
    std::optional<ClimateRow> read(std::size_t at);

    void set_aside(std::size_t at, std::string what, std::string why);
    /// Sets the row aside for its time.
    void set_aside_for_its_time(std::size_t at, std::string why);
    /// What was set aside so far, by line.
    [[nodiscard]] std::vector<SetAside> all_set_aside() const;
    /// Of how many lines set aside the temperature, too high in °C, would be one of a store in °F.
    [[nodiscard]] std::size_t would_do_in_fahrenheit() const { return would_do_in_fahrenheit_; }

private:
    [[nodiscard]] bool has_the_heads_width(const CsvRow& row) const;
    [[nodiscard]] std::string time_text(std::size_t at) const;
    /// The number in a field; else it is set aside, with what is expected there.
    std::optional<double> number(std::size_t at, std::size_t column, std::string_view expected);
    std::optional<Celsius> read_temperature(std::size_t at);
    std::optional<RelativeHumidity> read_humidity(std::size_t at);

    const CsvTable& table_;
    const ClimateColumns& columns_;
    std::vector<SetAside> set_aside_;
    std::size_t would_do_in_fahrenheit_ = 0;
};

} // namespace mellowbin::exchange
