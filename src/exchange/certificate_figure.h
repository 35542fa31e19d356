#pragma once

#include "core/day.h"
#include "exchange/certificate_mapping.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// A figure as a certificate prints it: "12,5 %", "1 250 s", "1.250,5", "0.52 ± 0.02".
struct PrintedFigure {
    enum class Kind {
        figure,
        two_readings, ///< "1.250": `value` is with the mark as a decimal mark, `other` as one of thousands
        missing,      ///< nothing, a dash, "n. d."
        limit,        ///< "< 0.1", "max. 15", "11 - 13": no figure of this lot
        none,
    };
    Kind kind = Kind::none;
    std::string value; ///< digits with a decimal point, none of them lost or added
    std::string other;
    DecimalMark mark = DecimalMark::not_known; ///< the decimal mark that stands there, or may
    std::string rest;                          ///< what stands behind it: a unit, a basis
    std::string note;                          ///< "± 0.02"
};
PrintedFigure read_printed_figure(std::string_view text);

/// A day as a certificate prints it: "2026-11-02", "02.11.2026", "2 novembre 2026", "Nov 2, 2026".
struct PrintedDay {
    enum class Kind {
        day,
        two_readings, ///< "03/04/2026": `day` with the day first, `other` with the month first
        month,        ///< "11/2026": no day
        missing,
        none,
    };
    Kind kind = Kind::none;
    std::optional<Day> day, other;
    DateOrder order = DateOrder::not_known; ///< that the digits prove: "13/04/2026"
};
PrintedDay read_printed_day(std::string_view text);

/// Whether a value stands there by itself, as under a head: a figure with at most a unit, a day, or nothing
/// said.
bool is_bare_value(std::string_view text);

} // namespace mellowbin::exchange
