#pragma once

#include "core/result.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

/// Reads a number as people type it: "11,85" and "11.85" are the same number. Optional sign, digits, one
/// point or comma, digits; spaces around it, and one space between thousands ("2 500,5"), as numbers are
/// shown. No other grouping, no exponent, no unit. An empty text is a missing value (nullopt), never zero and
/// never the value before. Everything else ("abc", "1.234,5", "1e5", "12 %") is refused under `field`. Up to
/// 15 significant digits.
Result<std::optional<double>> read_decimal(std::string_view field, std::string_view text);

/// The bounds a field keeps, both included unless said otherwise; for one message instead of one per field.
struct Bounds {
    double low;
    double high;
    const char* unit; ///< as shown: "%", "°C", "kg"
};

/// read_decimal(), then refused outside the bounds, saying what was read and what is expected.
Result<std::optional<double>> read_decimal_within(std::string_view field, std::string_view text,
                                                  Bounds bounds);

/// The same, and a missing value is refused too.
Result<double> read_required_decimal(std::string_view field, std::string_view text, Bounds bounds);

/// A number as it would be typed: up to 15 digits, those before the point and a single zero there included,
/// no exponent; what read_decimal() reads.
std::string as_typed(double value);

/// A number as shown: fixed decimals, decimal point.
std::string fixed(double value, int decimals);

} // namespace mellowbin
