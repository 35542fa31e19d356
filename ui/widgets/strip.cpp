#include "ui/widgets/strip.h"

#include "ui/widgets/inner.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

void strip(Role role, std::string_view words, Body acts) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_name(words.substr(0, words.find(':')));
    float& acts_wide = state().remembered[id_of("acts")]; // of the frame before
    const float pad = quarters(3), edge = quarters(1.25f);
    const float mark = measure("✓", {TextSize::text, Weight::bold}).x + quarters(1.5f);
    const float room =
        std::max(px(Length{8}), spot.width - edge - 2 * pad - mark - (acts ? acts_wide + pad : 0));
    const ImVec2 size = measure(words, {}, room);
    const float height = std::max(touch(), size.y + quarters(2));
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, height)};
    paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, role, 0.11f), corner());
    paper().AddRectFilled(rect.Min, {rect.Min.x + edge, rect.Max.y}, tint(role), corner(),
                          ImDrawFlags_RoundCornersLeft);
    const ImVec2 at{rect.Min.x + edge + pad, rect.Min.y + std::round((height - size.y) / 2)};
    draw(at, sign(role), tint(role), {TextSize::text, Weight::bold});
    draw(at + ImVec2(mark, 0), words, tint(Role::ink), {}, room);
    note_words(words, at + ImVec2(mark, 0), size);
    if (acts) {
        const float left = std::max(rect.Min.x, rect.Max.x - quarters(1) - acts_wide);
        put_cursor({left, rect.Min.y + std::round((height - touch()) / 2)});
        push_place(Place::Kind::flow, left, rect.Max.x - left);
        place().width = std::max(place().width, spot.width); // on one line; its width is measured
        acts();
        const float now = place().x - left - quarters(2);
        if (std::abs(now - acts_wide) > 0.5f)
            state().quiet_frames = std::max(state().quiet_frames, 2);
        acts_wide = std::max(0.0f, now);
        pop_place();
    }
    pop_name();
    close_spot(spot, spot.width, height, 1);
}

bool fold(std::string_view label, bool& is_open) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const Words bold{TextSize::text, Weight::bold};
    const float mark = quarters(3);
    const ImVec2 size = measure(label, bold, spot.width - mark);
    const float height = std::max(touch(), size.y + quarters(1));
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, height)};
    const Pressable item = pressable(label, rect);
    if (item.hovered)
        paper().AddRectFilled(rect.Min, rect.Max, tint(Role::accent, 0.08f), corner());
    const ImVec2 middle{rect.Min.x + quarters(1), rect.GetCenter().y};
    const float r = quarters(0.9f);
    const ImU32 colour = tint(Role::accent);
    if (is_open)
        paper().AddTriangleFilled({middle.x - r, middle.y - r / 2}, {middle.x, middle.y + r},
                                  {middle.x + r, middle.y - r / 2}, colour);
    else
        paper().AddTriangleFilled({middle.x - r / 2, middle.y - r}, {middle.x - r / 2, middle.y + r},
                                  {middle.x + r, middle.y}, colour);
    draw({rect.Min.x + mark, rect.Min.y + std::round((height - size.y) / 2)}, label, colour, bold,
         spot.width - mark);
    if (item.focused && state().focus_by_key)
        focus_ring(rect, -quarters(0.5f));
    if (Note* made = note(Kind::button, label, rect, item))
        made->chosen = is_open;
    if (item.pressed)
        is_open = !is_open;
    close_spot(spot, spot.width, height, 0);
    return is_open;
}

void pills(std::string_view name, std::span<const Pill> row) {
    if (row.empty())
        return;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float gap = quarters(1), height = line() + quarters(1);
    const auto count = static_cast<float>(row.size());
    const float wide = std::floor((spot.width - gap * (count - 1)) / count);
    float x = spot.at.x;
    push_name(name);
    for (const Pill& pill : row) {
        const ImRect box{{x, spot.at.y}, {x + wide, spot.at.y + height}};
        paper().AddRectFilled(box.Min, box.Max, pill.is_here ? tint(pill.role) : tint(Role::panel),
                              hair() * 3);
        const Words style{TextSize::text,
                          pill.is_here || pill.role == Role::good ? Weight::bold : Weight::regular};
        const ImVec2 size = measure(pill.words, style);
        const float room = wide - quarters(0.5f);
        draw_clipped({box.GetCenter().x - std::min(size.x, room) / 2, box.Min.y + quarters(0.5f)}, room,
                     pill.words, pill.is_here ? tint(Role::panel) : tint(pill.role), style);
        note_words(pill.words, box.Min, box.GetSize());
        x += wide + gap;
    }
    pop_name();
    close_spot(spot, spot.width, height);
}

} // namespace mellowbin::ui
