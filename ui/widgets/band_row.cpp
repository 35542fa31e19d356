#include "ui/widgets/band_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

namespace {

/// Words with the sign of their role; gives how far they reach.
float draw_signed(ImVec2 at, float room, std::string_view words, Role role, Words style = {}) {
    const char* mark = sign(role);
    const float marked = *mark ? measure(mark).x + quarters(1) : 0;
    if (*mark)
        draw(at, mark, tint(role));
    draw_clipped({at.x + marked, at.y}, room - marked, words, tint(role), style);
    return marked + std::min(room - marked, measure(words, style).x);
}

float width_of(const BandRemark& remark) {
    const char* mark = sign(remark.role);
    return measure(remark.words).x + (*mark ? measure(mark).x + quarters(1) : 0);
}

/// One after another, the first one at any rate; what does not fit is said by the pointer's words.
void draw_remarks(std::span<const BandRemark> remarks, ImVec2 at, float room) {
    constexpr std::string_view between = " · ", left_out = " …";
    const float right = at.x + room;
    for (std::size_t i = 0; i < remarks.size(); ++i) {
        const float apart = i > 0 ? measure(between).x : 0;
        if (i > 0 && at.x + apart + width_of(remarks[i]) > right) {
            if (at.x + measure(left_out).x <= right)
                draw(at, left_out, tint(Role::quiet));
            return;
        }
        if (i > 0)
            draw(at, between, tint(Role::quiet));
        at.x += apart;
        at.x += draw_signed(at, right - at.x, remarks[i].words, remarks[i].role);
    }
}

void draw_label(const BandRow& row, const ImRect& rect, float width) {
    const float pad = quarters(2), room = width - 2 * pad, x = rect.Min.x + pad;
    const int lines = 1 + (row.detail.empty() ? 0 : 1) + (row.remarks.empty() ? 0 : 1);
    float y = std::round(rect.GetCenter().y - line() * static_cast<float>(lines) / 2);
    const float used = draw_signed({x, y}, room, row.label, row.role, {TextSize::text, Weight::bold});
    if (!row.aside.empty() && used + quarters(1) + measure(row.aside).x <= room)
        draw_right(x + room, y, row.aside, tint(Role::quiet));
    if (!row.detail.empty())
        draw_clipped({x, y += line()}, room, row.detail, tint(Role::quiet));
    if (!row.remarks.empty())
        draw_remarks(row.remarks, {x, y + line()}, room);
}

/// Label, amount and state beside each other: where the parts end is the same in all rows.
void draw_columns(const BandRow& row, const BandLayout& l, const ImRect& rect) {
    const float y = std::round(rect.GetCenter().y - line() / 2);
    const float room = l.columns.amount - l.columns.label - measure(row.amount).x - quarters(1);
    draw_clipped({l.columns.label, y}, room, row.label, tint(row.role), {TextSize::text, Weight::bold});
    draw_right(l.columns.amount, y, row.amount, tint(Role::ink));
    draw_signed({l.columns.state, y}, rect.Min.x + l.label - l.columns.state - quarters(1), row.state,
                row.state_role);
}

/// A head over the rows of a group.
void draw_group(const BandRow& row, const BandLayout& l, const ImRect& rect, bool hovered) {
    paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::raised, hovered ? 0.9f : 0.5f));
    const float y = std::round(rect.GetCenter().y - line() / 2), middle = rect.GetCenter().y;
    const float x = l.columns.label, r = quarters(1.2f);
    if (row.is_folded)
        paper().AddTriangleFilled({x, middle - r}, {x + r * 1.2f, middle}, {x, middle + r},
                                  tint(Role::accent));
    else
        paper().AddTriangleFilled({x, middle - r * 0.6f}, {x + 2 * r, middle - r * 0.6f},
                                  {x + r, middle + r * 0.8f}, tint(Role::accent));
    const float after = x + 2 * r + quarters(2);
    draw({after, y}, row.label, tint(Role::ink), {TextSize::text, Weight::bold});
    const float detail = after + measure(row.label, {TextSize::text, Weight::bold}).x + quarters(2);
    draw_clipped({detail, y}, rect.Min.x + l.label - detail, row.detail, tint(Role::quiet));
    draw_clipped({l.scale.left + quarters(2), y}, l.scale.right - l.scale.left - quarters(3), row.words,
                 tint(Role::ink));
}

void draw_spans(const BandRow& row, const DayScale& scale, float top, float bottom) {
    const ImRect seen{{scale.left, top}, {scale.right, bottom}};
    for (const Span& span : row.spans) {
        const float from = std::round(std::clamp(scale.x(span.from), scale.left, scale.right));
        const float to = std::round(std::clamp(scale.x(span.to), scale.left, scale.right));
        if (to > from)
            draw_texture({{from, top}, {to, bottom}}, span.texture, seen);
    }
}

void draw_ticks(const BandRow& row, const DayScale& scale, float top, float bottom, BandPointer& pointer,
                const Pressable& item, BandEvents& events) {
    const float r = quarters(1.1f);
    for (const BandTick& tick : row.ticks) {
        const float x = std::round(scale.x(tick.day + 0.5));
        if (x < scale.left || x > scale.right)
            continue;
        const ImRect rect{{x - r, top - r * 1.5f}, {x + r, bottom + hair()}};
        paper().AddRectFilled({x - hair(), top - r * 0.2f}, {x + hair(), bottom + quarters(0.5f)},
                              tint(tick.role));
        paper().AddTriangleFilled({x - r, top - r * 1.5f}, {x + r, top - r * 1.5f}, {x, top},
                                  tint(tick.role));
        const bool on = item.hovered && rect.Contains(pointer.at);
        if (on)
            pointer.words = tick.words;
        if (on && item.pressed)
            events.tick = tick.id;
        if (Note* made = note(Kind::marker, tick.words, rect, item.id))
            made->hovered = on;
    }
}

std::string row_words(const BandRow& row, double day) {
    std::string words(row.label);
    words.append(", ").append(day_words(day));
    for (const Span& span : row.spans)
        if (day >= span.from && day < span.to)
            words.append(": ").append(word_for(span.texture));
    if (!row.words.empty())
        words.append("\n").append(row.words);
    for (std::size_t i = 0; i < row.remarks.size(); ++i)
        words.append(i == 0 ? "\n" : " · ").append(row.remarks[i].words);
    if (!row.aside.empty())
        words.append("\n").append(row.aside);
    return words;
}

void draw_row_ground(const BandLayout& l, const ImRect& rect, bool chosen, bool hovered) {
    if (chosen)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::accent, 0.12f));
    else if (hovered)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::raised, 0.5f));
    draw_day_lines(l.scale, rect.Min.y, rect.Max.y);
    paper().AddRectFilled({rect.Min.x, rect.Max.y - hair()}, rect.Max, mix(Role::panel, Role::raised, 0.8f));
    if (chosen)
        paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.75f), rect.Max.y}, tint(Role::accent));
}

} // namespace

void draw_band_row(const BandRow& row, const BandLayout& l, const ImRect& rect, std::int64_t record,
                   TimeAxis& axis, BandPointer& pointer, ImGuiID chart, BandEvents& events) {
    const Pressable item = list_item(record, "row", rect);
    const bool chosen = axis.selected == record;
    if (row.is_group) {
        draw_group(row, l, rect, item.hovered);
        if (item.pressed)
            events.fold = record;
        if (chosen)
            paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.75f), rect.Max.y}, tint(Role::accent));
        if (Note* made = note(Kind::marker, row.label, rect, item)) {
            made->value = std::string(row.detail) + " | " + std::string(row.words);
            made->chosen = !row.is_folded;
        }
        return;
    }
    draw_row_ground(l, rect, chosen, item.hovered);
    if (l.is_columns)
        draw_columns(row, l, rect);
    else
        draw_label(row, rect, l.label);
    const float top = std::round(rect.Min.y + rect.GetHeight() * (l.is_columns ? 0.22f : 0.32f));
    const float bottom = std::round(rect.Min.y + rect.GetHeight() * 0.68f);
    draw_spans(row, l.scale, top, bottom);
    const float strip = bottom + quarters(0.5f);
    for (const auto& fade : {row.ready_from, row.best_until})
        if (fade)
            draw_fade(l.scale, *fade, strip, strip + quarters(1.2f));
    draw_ticks(row, l.scale, top, bottom, pointer, item, events);
    if (item.hovered && pointer.is_here) {
        events.under_pointer = record;
        if (pointer.words.empty() && pointer.at.x >= l.scale.left)
            pointer.words = row_words(row, pointer.day);
    }
    if (item.pressed) {
        events.selected = events.selected || axis.selected != record;
        axis.selected = record;
        give_focus(chart);
    }
    if (item.double_clicked)
        events.opened = true;
    if (Note* made = note_item(Kind::row, row.label, rect, item, chosen)) {
        for (const std::string_view words : {row.state, row.detail, row.words})
            if (!words.empty())
                made->value.append(made->value.empty() ? "" : " | ").append(words);
        for (const BandRemark& remark : row.remarks)
            made->value.append(" | ").append(remark.words);
        if (!row.aside.empty())
            made->value.append(" | ").append(row.aside);
    }
}

} // namespace mellowbin::ui::inner
