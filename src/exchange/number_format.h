#pragma once

#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// What a spreadsheet's number format makes of a number, as far as it changes what the number says.
struct NumberFormat {
    enum class Kind { plain, percent, day, month, time, day_and_time };
    Kind kind = Kind::plain;
    int least_digits = 0;      ///< whole digits shown at least, where the format is of zeros alone: 0012
    int thousands_off = 0;     ///< how often it is shown divided by 1000
    std::string before, after; ///< words that the format puts around the figure: " kg"

    friend bool operator==(const NumberFormat&, const NumberFormat&) = default;
};

/// Reads a format's code ("0.00 %", "DD.MM.YYYY", "0.0\" kg\""), its first section; ECMA-376 part 1, 18.8.31.
NumberFormat read_number_format(std::string_view code);
/// A format that every spreadsheet knows by number; ECMA-376 part 1, 18.8.30.
NumberFormat known_number_format(int number);

/// From which day a file counts its days.
enum class DayCount { from_1900, from_1904 };

/// A number as its format shows it, with all its digits: "14.2 %", "2026-11-02", "25 kg", "2026-11" where the
/// format shows no day. Empty where the format makes a day of a number that is none.
std::string shown_number(double value, const NumberFormat& format, DayCount count);

} // namespace mellowbin::exchange
