#include "core/decimal.h"
#include "ui/widgets/curve_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace mellowbin::ui {

using namespace inner;

namespace {

/// So many steps that the figures beside the axis do not touch each other.
int steps_in(float height) { return std::clamp(static_cast<int>(height / (line() * 1.7f)), 1, 5); }

RoundRange range_of(const Curve& curve, float height) {
    double least = std::numeric_limits<double>::infinity(), greatest = -least;
    const auto take = [&](double value) {
        least = std::min(least, value);
        greatest = std::max(greatest, value);
    };
    for (const CurvePoint& point : curve.points) {
        take(point.low);
        take(point.likely);
        take(point.high);
    }
    for (const CurveMark& mark : curve.marks)
        take(mark.y);
    if (curve.wanted)
        take(*curve.wanted);
    const double from = curve.y_from.value_or(least), to = curve.y_to.value_or(greatest);
    RoundRange range = round_range(from, to, steps_in(height));
    range.from = curve.y_from.value_or(range.from);
    range.to = curve.y_to.value_or(range.to);
    return range;
}

/// Plots of several curves stand in line as long as their values take no more than "0000.0".
CurvePaper lay_out(const Curve& curve, const ImRect& all) {
    const float below = line() * (curve.across ? 2.0f : 1.0f) + quarters(1);
    const float top = all.Min.y + line() + quarters(2), bottom = all.Max.y - below;
    CurvePaper p{all, {}, {}, range_of(curve, bottom - top)};
    const auto widest = [&](double value) {
        return measure(fixed(value, decimals_of(p.values.step))).x + quarters(2);
    };
    const float left = std::max({measure("0000.0").x, widest(p.values.from), widest(p.values.to)});
    p.plot = {{all.Min.x + left, top}, {all.Max.x - quarters(1), bottom}};
    const bool has_points = !curve.points.empty();
    const double from = curve.first_day.value_or(has_points ? curve.points.front().day : curve.today);
    const double to = curve.last_day.value_or(has_points ? curve.points.back().day : curve.today + 1);
    p.days = {p.plot.Min.x, p.plot.Max.x, from, std::max(to - from, 1.0)};
    return p;
}

void draw_y_axis(const CurvePaper& p) {
    const double step = p.values.step;
    for (double v = std::ceil(p.values.from / step - 0.01) * step; v <= p.values.to + step * 0.01;
         v += step) {
        const float y = std::round(p.y(v));
        paper().AddRectFilled({p.plot.Min.x, y}, {p.plot.Max.x, y + hair()},
                              mix(Role::panel, Role::ink, 0.08f));
        const std::string words = fixed(std::abs(v) < step * 0.01 ? 0 : v, decimals_of(step));
        draw_right(p.plot.Min.x - quarters(1), y - line() / 2, words, tint(Role::quiet));
    }
}

std::string place_words(double day, const Curve& curve) {
    if (!curve.across)
        return day_words(day);
    return fixed(day, curve.across->decimals) + " " + std::string(curve.across->unit);
}

std::string words_on_day(const CurvePoint& point, const Curve& curve) {
    const auto value = [&](double v) { return fixed(v, curve.decimals); };
    std::string words = place_words(point.day, curve) + ": " + value(point.likely);
    if (!curve.unit.empty())
        words.append(" ").append(curve.unit);
    if (point.low != point.likely || point.high != point.likely)
        words += " (" + value(point.low) + " – " + value(point.high) + ")";
    if (point.known != Known::estimate)
        words.append(", ").append(word_for(point.known));
    return words;
}

bool has_today(const Curve& curve, const CurvePaper& p) {
    return !curve.across && curve.today >= p.days.from && curve.today <= p.days.from + p.days.days;
}

/// What the axis counts, at the left; at the right what is under the pointer.
void draw_head(const Curve& curve, const CurvePaper& p, std::string_view reading) {
    std::string axis(curve.y_axis);
    if (!curve.unit.empty())
        axis.append(", ").append(curve.unit);
    const float room = p.all.GetWidth();
    const ImVec2 size = measure(axis);
    draw_clipped(p.all.Min, room, axis, tint(Role::quiet));
    note_words(axis, p.all.Min, {std::min(size.x, room), size.y});
    const float words_end = p.all.Min.x + size.x + quarters(2);
    if (!reading.empty()) {
        const float left = std::max(p.all.Max.x - measure(reading).x, words_end);
        draw_clipped({left, p.all.Min.y}, p.all.Max.x - left, reading, tint(Role::ink));
    } else if (has_today(curve, p)) {
        const float x = std::min(p.days.x(curve.today), p.plot.Max.x - measure(curve.today_words).x);
        const float y = x >= words_end ? p.all.Min.y : p.plot.Min.y;
        draw({x + (x >= words_end ? 0 : quarters(0.75f)), y}, curve.today_words, tint(Role::accent));
    }
}

void draw_wanted(const Curve& curve, const CurvePaper& p) {
    if (!curve.wanted)
        return;
    const float y = std::round(p.y(*curve.wanted));
    draw_dashes({p.plot.Min.x, y}, {p.plot.Max.x, y}, tint(Role::accent), 1.5f * hair());
    const ImVec2 size = measure(curve.wanted_words);
    draw({p.plot.Min.x + quarters(1), y - size.y}, curve.wanted_words, tint(Role::accent));
    note_words(curve.wanted_words, {p.plot.Min.x + quarters(1), y - size.y}, size);
}

void draw_looked_at(const CurvePoint& point, const CurvePaper& p) {
    const ImVec2 at = p.at(point.day, point.likely);
    paper().AddLine({at.x, p.plot.Min.y}, {at.x, p.plot.Max.y}, tint(Role::quiet), hair());
    paper().AddCircleFilled(at, quarters(0.8f), tint(Role::model));
}

bool is_pointed_at(const CurvePaper& p) {
    return ImGui::IsMouseHoveringRect(p.plot.Min, p.plot.Max) && state().layer == state().top_layer;
}

} // namespace

CurveEvents curve(const Curve& curve) {
    CurveEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float height = px(curve.height);
    const CurvePaper p = lay_out(curve, {spot.at, spot.at + ImVec2(spot.width, height)});
    draw_y_axis(p);
    if (curve.across) {
        draw_across(*curve.across, p);
    } else {
        draw_day_lines(p.days, p.plot.Min.y, p.plot.Max.y);
        draw_day_labels(p.days, p.plot.Max.y + quarters(0.5f));
    }
    draw_course(curve.points, p);
    draw_wanted(curve, p);
    if (has_today(curve, p))
        draw_today(p.days, curve.today, p.plot.Min.y, p.plot.Max.y, 2 * hair());

    std::optional<double> looked_at = curve.looked_at;
    if (is_pointed_at(p))
        looked_at = events.day_under_pointer = p.days.day(ImGui::GetIO().MousePos.x);
    std::string reading;
    if (looked_at)
        if (const auto point = on_day(curve.points, *looked_at)) {
            draw_looked_at(*point, p);
            reading = words_on_day(*point, curve);
        }
    const std::string_view mark = draw_marks(curve.marks, p);
    draw_head(curve, p, reading);
    if (curve.points.empty() && curve.marks.empty())
        draw_clipped(p.plot.Min + ImVec2(quarters(2), quarters(2)), p.plot.GetWidth() - quarters(3),
                     curve.when_empty, tint(Role::quiet));
    tip_for(!mark.empty(), mark);
    if (Note* made = note(Kind::figure, curve.name, p.all)) {
        made->value = reading;
        const auto now = curve.across ? std::nullopt : on_day(curve.points, curve.today);
        if (now && reading.empty())
            made->value = words_on_day(*now, curve);
        if (curve.points.empty() && curve.marks.empty())
            made->value = curve.when_empty;
    }
    close_spot(spot, spot.width, height);
    return events;
}

} // namespace mellowbin::ui
