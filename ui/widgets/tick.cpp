#include "ui/widgets/field_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

bool tick(std::string_view label, bool& ticked, const Tick& options) {
    const Words style = ordinary();
    const float side = std::round(touch() * 0.5f), space = quarters(2);
    const Spot spot = open_spot(side + space + measure(label, style).x + quarters(1));
    const float wrap = std::max(em(), spot.width - side - space);
    const ImVec2 words = measure(label, style, wrap);
    const float height = std::max(touch(), words.y);
    const ImRect rect{spot.at, spot.at + ImVec2(side + space + words.x + quarters(1), height)};
    const bool enabled = options.blocked.empty();
    const Pressable item = pressable(label, rect, {.enabled = enabled});
    if (item.pressed)
        ticked = !ticked;

    const ImVec2 at{rect.Min.x, std::round(rect.GetCenter().y - side / 2)};
    const ImRect box{at, at + ImVec2(side, side)};
    paper().AddRectFilled(box.Min, box.Max,
                          ticked && enabled ? tint(Role::accent)
                          : item.hovered    ? tint(Role::raised)
                                            : tint(Role::panel),
                          corner());
    if (!ticked || !enabled)
        paper().AddRect(box.Min, box.Max, enabled ? border_line() : faint_line(), corner(), 0, hair());
    if (ticked) {
        const ImVec2 points[]{box.Min + ImVec2(side * 0.22f, side * 0.52f),
                              box.Min + ImVec2(side * 0.43f, side * 0.72f),
                              box.Min + ImVec2(side * 0.79f, side * 0.30f)};
        paper().AddPolyline(points, 3, enabled ? tint(Role::panel) : tint(Role::quiet), 0,
                            std::max(2.0f, side * 0.11f));
    }
    draw({box.Max.x + space, rect.Min.y + std::round((height - words.y) / 2)}, label,
         enabled ? tint(Role::ink) : tint(Role::quiet), style, wrap);
    if (item.focused && state().focus_by_key)
        focus_ring(box, quarters(0.5f));
    if (Note* made = note(Kind::tick, label, rect, item)) {
        made->chosen = ticked;
        made->value = ticked ? "ticked" : "not ticked";
    }
    float bottom = rect.Max.y;
    const auto under = [&](std::string_view text, Role role, Kind kind) {
        bottom +=
            words_under(text, role, kind, {box.Max.x + space, bottom - quarters(1.5f)}, wrap) - quarters(1);
    };
    if (options.refusals)
        for (const Refusal& r : *options.refusals)
            if (r.field == label)
                under(in_one_line(r), Role::stop, Kind::refusal);
    if (!options.blocked.empty())
        under(options.blocked, Role::quiet, Kind::text);
    if (!options.note.empty())
        under(options.note, Role::quiet, Kind::text);
    close_spot(spot, rect.GetWidth(), bottom - spot.at.y, 1);
    return item.pressed;
}

} // namespace mellowbin::ui
