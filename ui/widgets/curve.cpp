#include "core/decimal.h"
#include "ui/widgets/chart.h"
#include "ui/widgets/chart_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

struct Paper {
    ImRect plot;
    DayScale days;
    double y_from, y_to;
    float y(double value) const {
        const double share = std::clamp((value - y_from) / (y_to - y_from), 0.0, 1.0);
        return plot.Max.y - plot.GetHeight() * static_cast<float>(share);
    }
    ImVec2 at(double day, double value) const { return {days.x(day), y(value)}; }
};

/// 1, 2 or 5 times a power of ten, so that four to six lines stand on the axis.
double round_step(double range) {
    const double rough = range / 5, power = std::pow(10, std::floor(std::log10(rough)));
    for (const double step : {1.0, 2.0, 5.0})
        if (rough <= step * power)
            return step * power;
    return 10 * power;
}

int decimals_of(double step) { return std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9))); }

void draw_y_axis(const Paper& p) {
    const double step = round_step(p.y_to - p.y_from);
    for (double v = std::ceil(p.y_from / step) * step; v <= p.y_to + step * 0.01; v += step) {
        const float y = std::round(p.y(v));
        paper().AddRectFilled({p.plot.Min.x, y}, {p.plot.Max.x, y + hair()},
                              mix(Role::panel, Role::ink, 0.08f));
        const std::string words = fixed(std::abs(v) < step * 0.01 ? 0 : v, decimals_of(step));
        draw_right(p.plot.Min.x - quarters(1), y - line() / 2, words, tint(Role::quiet));
    }
}

void draw_course(const Curve& curve, const Paper& p) {
    const ImU32 band = tint(Role::model, 0.20f);
    for (std::size_t i = 0; i + 1 < curve.points.size(); ++i) {
        const CurvePoint &a = curve.points[i], &b = curve.points[i + 1];
        paper().AddQuadFilled(p.at(a.day, a.low), p.at(a.day, a.high), p.at(b.day, b.high),
                              p.at(b.day, b.low), band);
    }
    std::vector<ImVec2> line_points;
    line_points.reserve(curve.points.size());
    for (const CurvePoint& point : curve.points)
        line_points.push_back(p.at(point.day, point.likely));
    paper().AddPolyline(line_points.data(), static_cast<int>(line_points.size()), tint(Role::model), 0,
                        2 * hair());
}

void draw_marks(const Curve& curve, const Paper& p, std::string& tip) {
    const float r = quarters(1);
    for (const CurveMark& mark : curve.marks) {
        const ImVec2 at = p.at(mark.day, mark.y);
        paper().AddCircleFilled(at, r, tint(Role::ink));
        paper().AddCircle(at, r, tint(Role::panel), 0, hair());
        const ImRect rect{at - ImVec2(r, r) * 1.5f, at + ImVec2(r, r) * 1.5f};
        note(Kind::text, mark.words, rect);
        if (ImGui::IsMouseHoveringRect(rect.Min, rect.Max))
            tip = mark.words;
    }
}

/// The values of the course on a day, between its points in a straight line.
std::optional<CurvePoint> on_day(const Curve& curve, double day) {
    for (std::size_t i = 0; i + 1 < curve.points.size(); ++i) {
        const CurvePoint &a = curve.points[i], &b = curve.points[i + 1];
        if (day < a.day || day > b.day || b.day <= a.day)
            continue;
        const double t = (day - a.day) / (b.day - a.day);
        return CurvePoint{day, std::lerp(a.low, b.low, t), std::lerp(a.likely, b.likely, t),
                          std::lerp(a.high, b.high, t)};
    }
    return std::nullopt;
}

std::string words_on_day(const CurvePoint& point) {
    return day_words(point.day) + ": " + fixed(point.likely, 2) + " (" + fixed(point.low, 2) + " – " +
           fixed(point.high, 2) + ")";
}

} // namespace

CurveEvents curve(const Curve& curve) {
    CurveEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float height = px(curve.height), left = measure("0.00").x + quarters(2);
    const ImRect all{spot.at, spot.at + ImVec2(spot.width, height)};
    Paper p{{{all.Min.x + left, all.Min.y + line() + quarters(1)},
             {all.Max.x - quarters(1), all.Max.y - line() - quarters(1)}},
            {},
            curve.y_from,
            curve.y_to};
    const double from = curve.points.empty() ? curve.today : curve.points.front().day;
    const double to = curve.points.empty() ? curve.today + 1 : std::max(curve.points.back().day, from + 1);
    p.days = {p.plot.Min.x, p.plot.Max.x, from, to - from};
    draw(all.Min, curve.y_axis, tint(Role::quiet));
    note_words(curve.y_axis, all.Min, measure(curve.y_axis));
    draw_y_axis(p);
    draw_day_lines(p.days, p.plot.Min.y, p.plot.Max.y);
    draw_day_labels(p.days, p.plot.Max.y + quarters(0.5f));
    draw_course(curve, p);
    if (curve.wanted) {
        const float y = std::round(p.y(*curve.wanted));
        draw_dashes({p.plot.Min.x, y}, {p.plot.Max.x, y}, tint(Role::accent), 1.5f * hair());
        const ImVec2 size = measure(curve.wanted_words);
        draw({p.plot.Min.x + quarters(1), y - size.y}, curve.wanted_words, tint(Role::accent));
        note_words(curve.wanted_words, {p.plot.Min.x, y - size.y}, size);
    }
    draw_today(p.days, curve.today, p.plot.Min.y, p.plot.Max.y, 2 * hair());
    if (curve.today >= from && curve.today <= to)
        draw({std::min(p.days.x(curve.today), p.plot.Max.x - measure("today").x), all.Min.y}, "today",
             tint(Role::accent));
    std::string tip;
    draw_marks(curve, p, tip);
    if (ImGui::IsMouseHoveringRect(p.plot.Min, p.plot.Max) && state().layer == state().top_layer) {
        const double day = p.days.day(ImGui::GetIO().MousePos.x);
        events.day_under_pointer = day;
        if (const auto point = on_day(curve, day)) {
            const ImVec2 at = p.at(point->day, point->likely);
            paper().AddLine({at.x, p.plot.Min.y}, {at.x, p.plot.Max.y}, tint(Role::quiet), hair());
            paper().AddCircleFilled(at, quarters(0.8f), tint(Role::model));
            if (tip.empty())
                tip = words_on_day(*point);
        }
    }
    tip_for(!tip.empty(), tip);
    if (Note* made = note(Kind::figure, curve.name, all))
        if (const auto now = on_day(curve, curve.today))
            made->value = words_on_day(*now);
    close_spot(spot, spot.width, height);
    return events;
}

} // namespace mellowbin::ui
