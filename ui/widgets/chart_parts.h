#pragma once

#include "ui/widgets/chart.h"
#include "ui/widgets/inner.h"

namespace mellowbin::ui::inner {

/// Days along a stretch of the screen.
struct DayScale {
    float left, right; ///< pixels
    double from, days;
    float x(double day) const { return left + static_cast<float>((day - from) / days) * (right - left); }
    double day(float at) const { return from + days * static_cast<double>((at - left) / (right - left)); }
    float day_width() const { return (right - left) / static_cast<float>(days); }
};

/// "25 Nov"
std::string day_words(double day);
/// Days between two labels, so that they do not touch: 1, 2, 7 (Mondays), 14, 28 or months.
int label_step(const DayScale& scale);
/// Whether a label stands at this day.
bool has_label(double day, int step);
/// Labels over the columns, and thin lines down from them.
void draw_day_labels(const DayScale& scale, float y);
void draw_day_lines(const DayScale& scale, float top, float bottom);
/// A line through a day with its name in a tab on top.
void draw_today(const DayScale& scale, double day, float top, float bottom, float thickness);

/// A rectangle filled by texture.
void draw_texture(const ImRect& rect, Texture texture, ImRect seen);
/// The band that fades at its quantiles.
void draw_fade(const DayScale& scale, const Fade& fade, float top, float bottom);
/// A line in dashes.
void draw_dashes(ImVec2 from, ImVec2 to, ImU32 colour, float thickness);

} // namespace mellowbin::ui::inner
