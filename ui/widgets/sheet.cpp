#include "ui/widgets/sheet.h"

#include "ui/widgets/inner.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

/// "Esc ✕" at the right; true when it was pressed.
bool closer(const ImRect& rect) {
    const Pressable item = pressable("Close", rect);
    const float y = std::round(rect.GetCenter().y - line() / 2);
    draw_right(rect.Max.x - quarters(1), y, "Esc ✕", tint(item.hovered ? Role::accent : Role::quiet));
    if (item.focused && state().focus_by_key)
        focus_ring(rect, -quarters(0.5f));
    note(Kind::button, "Close", rect, item);
    return item.pressed;
}

bool is_escaped() {
    const Frame::State& s = state();
    const bool typing = s.focus_is_field && s.context->ActiveId != 0;
    return s.layer == s.top_layer && !typing && take_key(Key::escape);
}

} // namespace

bool sheet_head(const SheetHead& head) {
    const Words large{TextSize::key_figure, Weight::bold}, beside{TextSize::heading, Weight::regular};
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float close = std::max(touch(), measure("Esc ✕").x + quarters(2)), space = quarters(3);
    const float room = std::max(em(), spot.width - close - space);
    const ImVec2 name = measure(head.name, large, room);
    draw(spot.at, head.name, tint(Role::ink), large, room);
    note_words(head.name, spot.at, name, Kind::heading);
    float height = std::max(name.y, touch());
    const float left = name.x + space;
    const ImVec2 words = measure(head.beside, beside);
    const bool fits = left + words.x <= room;
    if (!head.beside.empty()) {
        // Both stand on one line of writing: fonts of one family keep it at one share of their height.
        const ImVec2 at = fits ? spot.at + ImVec2(left, std::round((name.y - words.y) * 0.785f))
                               : spot.at + ImVec2(0, name.y);
        const float wrap = fits ? 0 : spot.width;
        const ImVec2 size = fits ? words : measure(head.beside, beside, wrap);
        draw(at, head.beside, tint(Role::quiet), beside, wrap);
        note_words(head.beside, at, size);
        height = std::max(height, at.y - spot.at.y + size.y);
    }
    const float right = spot.at.x + spot.width;
    const bool is_closed = closer({{right - close, spot.at.y}, {right, spot.at.y + touch()}});
    close_spot(spot, spot.width, height, 2);
    return is_escaped() || is_closed;
}

void sheet_verdict(const SheetVerdict& v) {
    const Words style{TextSize::heading, Weight::bold};
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float pad = quarters(3), edge = quarters(1);
    const char* mark = sign(v.role);
    const float marked = *mark ? measure(mark, style).x + quarters(1.5f) : 0;
    const float room = std::max(em(), spot.width - edge - 2 * pad);
    const ImVec2 words = measure(v.words, style, room - marked);
    const ImVec2 why = v.why.empty() ? ImVec2{} : measure(v.why, {}, room);
    const float height = words.y + why.y + 2 * quarters(2);
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, height)};
    paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, v.role, 0.12f));
    paper().AddRectFilled(rect.Min, {rect.Min.x + edge, rect.Max.y}, tint(v.role));
    const ImVec2 at = rect.Min + ImVec2(edge + pad, quarters(2));
    draw(at, mark, tint(v.role), style);
    draw(at + ImVec2(marked, 0), v.words, tint(v.role), style, room - marked);
    note_words(v.words, at, words + ImVec2(marked, 0), Kind::heading);
    if (!v.why.empty()) {
        draw(at + ImVec2(0, words.y), v.why, tint(Role::ink), {}, room);
        note_words(v.why, at + ImVec2(0, words.y), why);
    }
    close_spot(spot, spot.width, height, 2);
}

void part(std::string_view words) {
    const Words style{TextSize::text, Weight::bold};
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const ImVec2 size = measure(words, style, spot.width);
    draw(spot.at, words, tint(Role::ink), style, spot.width);
    note_words(words, spot.at, size, Kind::heading);
    close_spot(spot, size.x, size.y, 1);
}

} // namespace mellowbin::ui
