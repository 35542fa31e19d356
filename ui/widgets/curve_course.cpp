#include "ui/widgets/curve_parts.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace mellowbin::ui::inner {

namespace {

ImU32 line_colour(Known known) { return tint(known == Known::measured ? Role::ink : Role::model); }

/// Upright lines between the two edges of a band, at places counted from the screen's edge, so that
/// neighbouring segments meet.
void hatch_band(const CurvePoint& a, const CurvePoint& b, const CurvePaper& p) {
    const float space = quarters(1.4f), from = p.days.x(a.day), to = p.days.x(b.day);
    if (to <= from)
        return;
    for (float x = std::ceil(from / space) * space; x < to; x += space) {
        const double t = static_cast<double>((x - from) / (to - from));
        const float top = p.y(std::lerp(a.high, b.high, t)), bottom = p.y(std::lerp(a.low, b.low, t));
        paper().AddRectFilled({x, top}, {x + hair(), bottom}, tint(Role::model, 0.35f));
    }
}

void draw_band(const CurvePoint& a, const CurvePoint& b, Known known, const CurvePaper& p) {
    if (known == Known::assumed) {
        hatch_band(a, b, p);
        return;
    }
    const ImU32 fill = known == Known::measured ? tint(Role::ink, 0.14f) : tint(Role::model, 0.20f);
    paper().AddQuadFilled(p.at(a.day, a.low), p.at(a.day, a.high), p.at(b.day, b.high), p.at(b.day, b.low),
                          fill);
}

/// A line through the points in dashes of one length, whatever the length of its segments.
void dash_along(const std::vector<ImVec2>& points, ImU32 colour, float thickness) {
    const float dash = quarters(1.25f);
    float gone = 0; // along the line, from the begin of the dash or of the space after it
    bool is_drawn = true;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const ImVec2 way = points[i + 1] - points[i];
        const float length = std::sqrt(way.x * way.x + way.y * way.y);
        for (float at = 0; at < length;) {
            const float until = std::min(length, at + dash - gone);
            if (is_drawn)
                paper().AddLine(points[i] + way * (at / length), points[i] + way * (until / length), colour,
                                thickness);
            gone += until - at;
            at = until;
            if (gone >= dash - 0.01f) {
                gone = 0;
                is_drawn = !is_drawn;
            }
        }
    }
}

void draw_line(const std::vector<ImVec2>& points, Known known) {
    const float thick = 2 * hair();
    if (known == Known::assumed)
        dash_along(points, line_colour(known), thick);
    else
        paper().AddPolyline(points.data(), static_cast<int>(points.size()), line_colour(known), 0, thick);
}

} // namespace

float CurvePaper::y(double value) const {
    const double share = std::clamp((value - values.from) / (values.to - values.from), 0.0, 1.0);
    return plot.Max.y - plot.GetHeight() * static_cast<float>(share);
}

void draw_course(std::span<const CurvePoint> points, const CurvePaper& p) {
    ImGui::PushClipRect(p.plot.Min - ImVec2(hair(), 2 * hair()), p.plot.Max + ImVec2(hair(), 2 * hair()),
                        true);
    for (std::size_t i = 0; i + 1 < points.size(); ++i)
        if (!points[i + 1].is_apart)
            draw_band(points[i], points[i + 1], known_between(points[i].known, points[i + 1].known), p);
    std::vector<ImVec2> stretch;
    Known known{};
    for (std::size_t i = 0; i < points.size(); ++i) {
        const bool goes_on = i > 0 && !points[i].is_apart;
        const Known from_here = goes_on ? known_between(points[i - 1].known, points[i].known) : known;
        if (!goes_on || (stretch.size() > 1 && from_here != known)) {
            draw_line(stretch, known);
            const bool joins = goes_on && !stretch.empty();
            stretch.erase(stretch.begin(), joins ? stretch.end() - 1 : stretch.end());
        }
        known = from_here;
        stretch.push_back(p.at(points[i].day, points[i].likely));
    }
    draw_line(stretch, known);
    ImGui::PopClipRect();
}

void draw_mark(ImVec2 at, MarkShape shape) {
    const float r = quarters(1);
    if (shape == MarkShape::plain) {
        paper().AddCircleFilled(at, r, tint(Role::ink));
        paper().AddCircle(at, r, tint(Role::panel), 0, hair());
        return;
    }
    const float wide = r * 1.6f;
    const ImVec2 top = at - ImVec2(0, wide), left = at + ImVec2(-wide, wide * 0.8f),
                 right = at + ImVec2(wide, wide * 0.8f);
    paper().AddTriangleFilled(top, right, left, tint(Role::panel));
    paper().AddTriangle(top, right, left, tint(Role::mind), 2 * hair());
}

std::string_view draw_marks(std::span<const CurveMark> marks, const CurvePaper& p) {
    static constexpr std::string_view check = "check";
    std::string_view under_pointer;
    const float r = quarters(1.6f);
    for (const CurveMark& mark : marks) {
        if (p.days.x(mark.day) < p.plot.Min.x - 1 || p.days.x(mark.day) > p.plot.Max.x + 1)
            continue;
        const ImVec2 at = p.at(mark.day, mark.y);
        draw_mark(at, mark.shape);
        ImRect rect{at - ImVec2(r, r), at + ImVec2(r, r)};
        rect.ClipWith(p.all);
        std::string words(mark.words);
        if (mark.shape == MarkShape::asks_check) {
            const ImVec2 size = measure(check);
            const float apart = r + quarters(0.75f);
            const bool fits = at.x + apart + size.x <= p.plot.Max.x;
            const float x = fits ? at.x + apart : std::max(p.plot.Min.x, at.x - apart - size.x);
            draw({x, at.y - size.y / 2}, check, tint(Role::mind));
            words += ", asks for a check";
        }
        note_words(words, rect.Min, rect.GetSize());
        if (ImGui::IsMouseHoveringRect(rect.Min, rect.Max) && state().layer == state().top_layer)
            under_pointer = mark.words;
    }
    return under_pointer;
}

void draw_known(Known known, const ImRect& box) {
    CurvePaper p{box, box, {box.Min.x, box.Max.x, 0, 1}, {0, 1, 1}};
    const CurvePoint ends[]{{0, 0, 0.5, 1, known}, {1, 0, 0.5, 1, known}};
    draw_course(ends, p);
}

} // namespace mellowbin::ui::inner
