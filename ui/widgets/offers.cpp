#include "ui/widgets/offers.h"

#include "ui/widgets/inner.h"
#include "ui/widgets/text.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace mellowbin::ui {

using namespace inner;

namespace {

/// Name and details; true when it was pressed.
bool offer(const Offer& one, bool is_first, bool takes_focus) {
    const float pad = quarters(3), width = place().width, room = width - 2 * pad;
    const ImVec2 details = measure(one.details, {}, room);
    const float height = std::max(touch(), line() + details.y + quarters(2));
    const Spot spot = open_spot(width);
    const ImRect rect{spot.at, spot.at + ImVec2(width, height)};
    const std::string words = std::string(one.name) + ", " + std::string(one.details);
    const Pressable item = pressable(words, rect);
    if (takes_focus)
        focus_in_layer(item.id);
    if (!is_first)
        paper().AddRectFilled(rect.Min, {rect.Max.x, rect.Min.y + hair()}, tint(Role::raised));
    if (item.hovered || item.focused)
        paper().AddRectFilled(rect.Min, rect.Max, tint(Role::raised));
    if (item.focused)
        paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.75f), rect.Max.y}, tint(Role::accent));
    const ImVec2 at{rect.Min.x + pad, rect.Min.y + quarters(1)};
    draw(at, one.name, tint(Role::ink), {TextSize::text, Weight::bold});
    draw(at + ImVec2(0, line()), one.details, tint(Role::quiet), {}, room);
    note(Kind::option, words, rect, item);
    if (item.focused && take_key(Key::down))
        give_focus_beside(1);
    if (item.focused && take_key(Key::up))
        give_focus_beside(-1);
    close_spot(spot, width, height, 0);
    return item.pressed;
}

} // namespace

OfferAnswer offers(const Offers& o) {
    OfferAnswer answer;
    begin_layer("offers", IM_COL32(20, 17, 13, 60));
    push_name("Found");
    const FrameSetup& setup = state().setup;
    const float margin = quarters(4), pad = quarters(3);
    const float width = std::min(px(Length{36}), setup.width - 2 * margin);
    float& wanted = state().remembered[id_of("height")];
    const float top = touch() + quarters(3);
    const float height = std::min(std::max(wanted, px(Length{8})), setup.height - top - margin);
    const ImVec2 at{std::round((setup.width - width) / 2), top};
    const ImRect rect{at, at + ImVec2(width, height)};
    const bool is_new = layer_is_new();
    answer.put_away = !is_new && ImGui::IsMouseClicked(0) && !rect.Contains(ImGui::GetIO().MousePos);
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::panel), corner());
    paper().AddRect(rect.Min, rect.Max, border_line(), corner(), 0, hair());
    note(Kind::dialog, o.title, rect);
    scrolling("all", rect, pad, [&] {
        const float from = ImGui::GetCursorScreenPos().y;
        heading(o.title);
        for (std::size_t i = 0; i < o.all.size(); ++i) {
            push_name(std::to_string(i + 1));
            if (offer(o.all[i], i == 0, is_new && i == 0))
                answer.chosen = i;
            pop_name();
        }
        if (!o.note.empty())
            hint(o.note);
        const float now = place().reached - from + 2 * pad;
        if (std::abs(now - wanted) > 0.5f)
            state().quiet_frames = std::max(state().quiet_frames, 2);
        wanted = now;
    });
    if (state().layer == state().top_layer && take_key(Key::escape))
        answer.put_away = true;
    pop_name();
    end_layer();
    return answer;
}

} // namespace mellowbin::ui
