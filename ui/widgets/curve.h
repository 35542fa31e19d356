#pragma once

#include "ui/widgets/theme.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

/// Values over days, or over a number (a dose, days after the bake). Several curves under each other share
/// one time axis: give them the same first and last day; their plots then stand in line.
namespace mellowbin::ui {

/// How a value of a course is known. A segment is drawn by the weaker of its two ends.
enum class Known {
    estimate, ///< a solid line in the colour of models, on its band
    measured, ///< a solid line in ink, on its band
    assumed,  ///< a line in dashes, on a hatched band
};
const char* word_for(Known known);

struct CurvePoint {
    double day;               ///< day number
    double low, likely, high; ///< of the y axis
    Known known = Known::estimate;
    bool is_apart = false; ///< not joined to the point before: nothing is known between the two
};

enum class MarkShape {
    plain,      ///< a disc
    asks_check, ///< an open triangle with the word "check" beside it
};
struct CurveMark {
    double day;
    double y;
    std::string_view words; ///< "24 Nov: 322 EU, Bay 2"
    MarkShape shape = MarkShape::plain;
};

/// What a curve runs over where that is no day of the calendar: each `day` of its points, marks and ends is
/// then a number of this unit.
struct Across {
    std::string_view name; ///< "dose"
    std::string_view unit; ///< "mg/kg": beside the name and after each value
    int decimals = 0;      ///< of a value in words
};

struct Curve {
    std::string_view name;      ///< "Maturity of W24-118"
    std::string_view y_axis;    ///< "maturity, 0 to 1"
    std::string_view unit = {}; ///< beside the axis and after each value, in quiet ink
    int decimals = 2;           ///< of a value in words
    /// Missing: from the least and the greatest value, out to round steps.
    std::optional<double> y_from = {}, y_to = {};
    /// The days shown, as day numbers. Missing: from the first point to the last.
    std::optional<double> first_day = {}, last_day = {};
    std::span<const CurvePoint> points = {};
    std::span<const CurveMark> marks = {};
    std::string_view band_words = "10 to 90 %"; ///< what lies between low and high
    std::optional<double> wanted = {};          ///< a level asked for, as a line
    std::string_view wanted_words = {};
    double today = 0;
    std::string_view today_words = "today";
    std::optional<Across> across = {}; ///< missing: over days; given: there is no today
    /// The day under the pointer in a curve above or below: its value is told here as well.
    std::optional<double> looked_at = {};
    std::string_view when_empty = "Nothing to draw yet.";
    Length height = {14};
};
struct CurveEvents {
    std::optional<double> day_under_pointer;
};
CurveEvents curve(const Curve& curve);
/// What the lines, bands and marks of these curves mean, in words; only what is drawn in one of them. What
/// was measured or assumed is told with its days: over a number, give points of estimates only.
void curve_legend(std::span<const CurvePoint> points, std::span<const CurveMark> marks,
                  std::string_view band_words, std::string_view mark_words = "a result");

/// "3 Jun to 10 Nov, 14 Nov to 24 Nov and 2 more times": when the points are known in this way; empty: never.
std::string days_known(std::span<const CurvePoint> points, Known known);

/// A y axis that holds the values and begins and ends at round steps of 1, 2 or 5 times a power of ten: about
/// as many steps as asked for.
struct RoundRange {
    double from = 0, to = 1, step = 0.2;
};
RoundRange round_range(double least, double greatest, int steps = 5);

} // namespace mellowbin::ui
