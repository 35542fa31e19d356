#include "ui/widgets/workbench.h"

#include "ui/widgets/button.h"
#include "ui/widgets/field.h"
#include "ui/widgets/frame.h"
#include "ui/widgets/inner.h"
#include "ui/widgets/layout.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

float rail_width(std::span<const RailItem> rail) {
    float widest = measure("Readiness", {TextSize::text, Weight::bold}).x;
    for (const RailItem& item : rail)
        widest =
            std::max({widest, measure(item.name, {TextSize::text, Weight::bold}).x, measure(item.waiting).x});
    for (const RailItem& item : rail)
        widest = std::max(widest, measure(item.name, {TextSize::text, Weight::bold}).x + measure(item.key).x +
                                      quarters(4));
    return widest + quarters(7);
}

bool rail_item(const RailItem& item, bool is_current, float width) {
    const float pad = quarters(4), height = std::max(touch(), line() * 2 + quarters(2));
    const Spot spot = open_spot(width);
    const ImRect rect{spot.at, spot.at + ImVec2(width, height)};
    const Pressable press = pressable(item.name, rect);
    if (is_current) {
        paper().AddRectFilled(rect.Min, rect.Max, tint(Role::panel));
        paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(1), rect.Max.y}, tint(Role::accent));
    } else if (press.hovered) {
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::raised, Role::panel, 0.5f));
    }
    const bool two_lines = !item.waiting.empty();
    const float y = std::round(rect.GetCenter().y - (two_lines ? line() : line() / 2));
    draw({rect.Min.x + pad, y}, item.name, tint(is_current ? Role::accent : Role::ink),
         {TextSize::text, is_current ? Weight::bold : Weight::regular});
    draw_right(rect.Max.x - quarters(2), y, item.key, tint(Role::quiet));
    if (two_lines)
        draw({rect.Min.x + pad, y + line()}, item.waiting, tint(item.waiting_role));
    if (press.focused && state().focus_by_key)
        focus_ring(rect, -quarters(0.5f));
    if (Note* made = note(Kind::tab, item.name, rect, press)) {
        made->chosen = is_current;
        made->value = item.waiting;
    }
    close_spot(spot, width, height, 0);
    return press.pressed;
}

Key function_key(int at) { return static_cast<Key>(static_cast<int>(Key::f1) + at); }
Key digit_key(int at) { return static_cast<Key>(static_cast<int>(Key::digit_1) + at); }

std::optional<int> draw_rail(std::span<const RailItem> rail, int current, const ImRect& rect) {
    std::optional<int> chosen;
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::raised));
    push_name("Screens");
    scrolling("rail", rect, 0, [&] {
        put_cursor(ImGui::GetCursorScreenPos() + ImVec2(0, quarters(3)));
        const float width = state().context->CurrentWindow->ScrollbarY ? place().width : rect.GetWidth();
        for (int i = 0; i < static_cast<int>(rail.size()); ++i) {
            if (rail_item(rail[static_cast<std::size_t>(i)], i == current, width))
                chosen = i;
            if (i < 9 && (key_pressed(function_key(i)) || key_pressed(digit_key(i), Mods::ctrl)))
                chosen = i;
        }
    });
    pop_name();
    return chosen;
}

/// A fact of the top line: drawn from the right, gone when there is no room left.
void fact_from_right(std::string_view words, float& right, float least, float y, Role role,
                     Weight weight = Weight::regular) {
    if (words.empty())
        return;
    const ImVec2 size = measure(words, {TextSize::text, weight});
    if (right - size.x < least)
        return;
    draw({right - size.x, y}, words, tint(role), {TextSize::text, weight});
    note_words(words, {right - size.x, y}, size);
    right -= size.x + quarters(4);
}

bool draw_top(const TopLine& top, const ImRect& rect) {
    bool searched = false;
    const float pad = quarters(4), y = rect.Min.y + std::round((rect.GetHeight() - line()) / 2);
    float left = rect.Min.x + pad;
    if (top.search) {
        const float width = std::clamp(rect.GetWidth() * 0.3f, px(Length{10}), px(Length{19}));
        put_cursor({left, rect.Min.y + std::round((rect.GetHeight() - touch()) / 2)});
        push_place(Place::Kind::stack, left, width);
        push_name("Top");
        if (key_pressed(Key::f, Mods::ctrl))
            focus("Search");
        searched = search_field({.label = "Search",
                                 .hint = top.search_hint,
                                 .width = {width / em()},
                                 .label_place = LabelPlace::hidden},
                                *top.search)
                       .entered;
        pop_name();
        pop_place();
        left += width + pad;
    }
    float right = rect.Max.x - pad;
    fact_from_right(top.day_and_time, right, left, y, Role::ink, Weight::bold);
    fact_from_right(top.person, right, left, y, Role::ink);
    fact_from_right(top.running, right, left, y, Role::model);
    const float before = right;
    fact_from_right(top.book.substr(top.book.find_last_of('/') + 1), right, left, y, Role::quiet);
    const bool is_on_book = ImGui::IsMouseHoveringRect({right, rect.Min.y}, {before, rect.Max.y}, false);
    tip_for(is_on_book && right < before, top.book);
    return searched;
}

void draw_notice(const Notice& notice, WorkbenchEvents& events) {
    const Words style{};
    const Spot spot = open_spot(place().width);
    const float pad = quarters(3), room = measure("✓", style).x + quarters(2);
    const float undo =
        notice.undo.empty() ? 0 : measure(notice.undo, {TextSize::text, Weight::bold}).x + 2 * quarters(2);
    const float close = touch();
    const float wrap = std::max(px(Length{8}), spot.width - room - undo - close - 2 * pad);
    const ImVec2 words = measure(notice.words, style, wrap);
    const float height = std::max(touch(), words.y + quarters(2));
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, height)};
    paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, notice.role, 0.10f), corner());
    paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(1), rect.Max.y}, tint(notice.role), corner(),
                          ImDrawFlags_RoundCornersLeft);
    const float y = rect.Min.y + std::round((height - words.y) / 2);
    draw({rect.Min.x + pad, y}, sign(notice.role), tint(notice.role), style);
    draw({rect.Min.x + pad + room, y}, notice.words, tint(Role::ink), style, wrap);
    note(Kind::notice, notice.words, rect);
    push_name("Notice");
    put_cursor({rect.Max.x - close - undo, rect.Min.y + std::round((height - touch()) / 2)});
    push_place(Place::Kind::flow, rect.Max.x - close - undo, undo + close);
    if (!notice.undo.empty() && button(notice.undo, {.kind = ButtonKind::quiet}))
        events.undo = true;
    pop_place();
    const ImRect cross{{rect.Max.x - close, rect.Min.y + std::round((height - touch()) / 2)},
                       {rect.Max.x, rect.Min.y + std::round((height + touch()) / 2)}};
    const Pressable item = pressable("Put away", cross);
    draw(cross.GetCenter() - measure("✕") * 0.5f, "✕", tint(item.hovered ? Role::accent : Role::quiet));
    if (item.focused && state().focus_by_key)
        focus_ring(cross, -quarters(0.5f));
    note(Kind::button, "Put away", cross, item);
    events.notice_put_away = item.pressed;
    pop_name();
    close_spot(spot, spot.width, height, 3);
}

} // namespace

WorkbenchEvents workbench(std::span<const RailItem> rail, int current, const TopLine& top,
                          const Notice& notice, Body screen, Around around) {
    WorkbenchEvents events;
    const FrameSetup& setup = state().setup;
    const bool is_bare = around == Around::nothing;
    const float pad = quarters(is_bare ? 2 : 4);
    const float rail_wide = is_bare ? 0 : rail_width(rail), top_high = is_bare ? pad : touch() + quarters(3);
    if (!is_bare) {
        events.screen = draw_rail(rail, current, {{0, 0}, {rail_wide, setup.height}});
        events.searched = draw_top(top, {{rail_wide, 0}, {setup.width, top_high}});
    }
    const std::string_view name = current >= 0 && current < static_cast<int>(rail.size())
                                      ? rail[static_cast<std::size_t>(current)].name
                                      : "Screen";
    const ImRect rest{{rail_wide + pad, top_high}, {setup.width - pad, setup.height - pad}};
    put_cursor(rest.Min);
    push_name(name);
    ImGui::BeginChild("screen", rest.GetSize(), false, ImGuiWindowFlags_NoNav);
    const float bar = state().context->CurrentWindow->ScrollbarY ? ImGui::GetStyle().ScrollbarSize : 0;
    push_place(Place::Kind::stack, rest.Min.x, rest.GetWidth() - bar);
    if (!notice.words.empty())
        draw_notice(notice, events);
    if (screen)
        screen();
    pop_place();
    ImGui::EndChild();
    pop_name();
    return events;
}

} // namespace mellowbin::ui
