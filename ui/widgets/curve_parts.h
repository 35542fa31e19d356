#pragma once

#include "ui/widgets/chart_parts.h"
#include "ui/widgets/curve.h"

#include <string>

namespace mellowbin::ui::inner {

/// Where the parts of a curve stand.
struct CurvePaper {
    ImRect all, plot;
    DayScale days;
    RoundRange values;
    float y(double value) const;
    ImVec2 at(double day, double value) const { return {days.x(day), y(value)}; }
};

/// The lower edge of a curve over a number: thin lines at round steps with their figures below, and in the
/// line under these what is counted.
void draw_across(const Across& across, const CurvePaper& paper);

/// How a segment between two points is known: as the weaker of the two.
Known known_between(Known one, Known other);
void draw_course(std::span<const CurvePoint> points, const CurvePaper& paper);
/// Gives back the words of the mark under the pointer.
std::string_view draw_marks(std::span<const CurveMark> marks, const CurvePaper& paper);
/// The line of a course in the little room of a legend.
void draw_known(Known known, const ImRect& box);
void draw_mark(ImVec2 at, MarkShape shape);

/// The values of the course on a day, between its points in a straight line; none where it says nothing.
std::optional<CurvePoint> on_day(std::span<const CurvePoint> points, double day);
int decimals_of(double step);

} // namespace mellowbin::ui::inner
