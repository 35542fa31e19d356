#include "ui/widgets/workbench.h"

#include "ui/widgets/button.h"
#include "ui/widgets/field.h"
#include "ui/widgets/frame.h"
#include "ui/widgets/inner.h"
#include "ui/widgets/layout.h"

#include <algorithm>
#include <array>
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

/// "F1" to "F12"; nothing for another key.
std::optional<Key> function_key(std::string_view key) {
    constexpr std::array<std::string_view, 12> names{"F1", "F2", "F3", "F4",  "F5",  "F6",
                                                     "F7", "F8", "F9", "F10", "F11", "F12"};
    const auto* const at = std::find(names.begin(), names.end(), key);
    if (at == names.end())
        return {};
    return static_cast<Key>(static_cast<int>(Key::f1) + static_cast<int>(at - names.begin()));
}
Key digit_key(int at) { return static_cast<Key>(static_cast<int>(Key::digit_1) + at); }

std::optional<int> draw_rail(std::span<const RailItem> rail, int current, const ImRect& rect) {
    std::optional<int> chosen;
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::raised));
    push_name("Screens");
    scrolling("rail", rect, 0, [&] {
        put_cursor(ImGui::GetCursorScreenPos() + ImVec2(0, quarters(3)));
        const float width = state().context->CurrentWindow->ScrollbarY ? place().width : rect.GetWidth();
        for (int i = 0; i < static_cast<int>(rail.size()); ++i) {
            const RailItem& item = rail[static_cast<std::size_t>(i)];
            if (rail_item(item, i == current, width))
                chosen = i;
            const auto own = function_key(item.key);
            if ((own && key_pressed(*own)) || (i < 9 && key_pressed(digit_key(i), Mods::ctrl)))
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

/// Where the notice lies over the screen, and how its words wrap there.
struct NoticeLook {
    ImRect rect;
    float pad, mark, undo, close, wrap, words;
};

/// At the left over the lower edge; above what the screen keeps clear it lies at the right, where the mixer
/// reads no figure.
NoticeLook look_of(const Notice& notice, const ImRect& rest) {
    NoticeLook l{};
    l.pad = quarters(3);
    l.mark = measure("✓").x + quarters(2);
    l.undo =
        notice.undo.empty() ? 0 : measure(notice.undo, {TextSize::text, Weight::bold}).x + 2 * quarters(2);
    l.close = touch();
    const float clear = state().clear_below, beside = 2 * l.pad + l.mark + l.undo + l.close;
    const float most = clear > 0 ? rest.GetWidth() * 0.5f : rest.GetWidth();
    const float natural = measure(notice.words).x + beside + 1;
    const float width = std::min(natural, std::max(most, std::min(rest.GetWidth(), beside + px(Length{10}))));
    l.wrap = std::max(px(Length{6}), width - beside);
    const ImVec2 words = measure(notice.words, {}, l.wrap);
    l.words = words.y;
    const float height = std::max(touch(), words.y + quarters(2));
    const float bottom = rest.Max.y - (clear > 0 ? clear + quarters(1) : 0);
    const float left = clear > 0 ? rest.Max.x - width : rest.Min.x;
    l.rect = {{left, bottom - height}, {left + width, bottom}};
    return l;
}

void draw_notice(const Notice& notice, const ImRect& rest, WorkbenchEvents& events) {
    const NoticeLook l = look_of(notice, rest);
    put_cursor(l.rect.Min);
    push_name("Notice");
    ImGui::BeginChild("notice", l.rect.GetSize(), false,
                      ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoScrollbar |
                          ImGuiWindowFlags_NoScrollWithMouse);
    push_place(Place::Kind::stack, l.rect.Min.x, l.rect.GetWidth());
    paper().AddRectFilled(l.rect.Min, l.rect.Max, tint(Role::ink), corner());
    paper().AddRectFilled(l.rect.Min, {l.rect.Min.x + quarters(1.25f), l.rect.Max.y}, tint(notice.role),
                          corner(), ImDrawFlags_RoundCornersLeft);
    const float y = l.rect.Min.y + std::round((l.rect.GetHeight() - l.words) / 2);
    draw({l.rect.Min.x + l.pad, y}, sign(notice.role), tint(Role::panel), {TextSize::text, Weight::bold});
    draw({l.rect.Min.x + l.pad + l.mark, y}, notice.words, tint(Role::panel), {}, l.wrap);
    note(Kind::notice, notice.words, l.rect);
    const float top = l.rect.Min.y + std::round((l.rect.GetHeight() - touch()) / 2);
    if (!notice.undo.empty()) {
        const ImRect undo{{l.rect.Max.x - l.close - l.undo, top}, {l.rect.Max.x - l.close, top + touch()}};
        const Pressable item = pressable(notice.undo, undo);
        const Words bold{TextSize::text, Weight::bold};
        const ImVec2 size = measure(notice.undo, bold), at = undo.GetCenter() - size * 0.5f;
        draw(at, notice.undo, tint(Role::panel), bold);
        paper().AddRectFilled({at.x, at.y + size.y},
                              {at.x + size.x, at.y + size.y + hair() * (item.hovered ? 2 : 1)},
                              tint(Role::panel));
        if (item.focused && state().focus_by_key)
            paper().AddRect(undo.Min, undo.Max, tint(Role::panel), corner(), 0, 2 * hair());
        note(Kind::button, notice.undo, undo, item);
        events.undo = item.pressed;
        events.notice_is_held = item.focused;
    }
    const ImRect cross{{l.rect.Max.x - l.close, top}, {l.rect.Max.x, top + touch()}};
    const Pressable item = pressable("Put away", cross);
    draw(cross.GetCenter() - measure("✕") * 0.5f, "✕", tint(Role::panel, item.hovered ? 1 : 0.75f));
    if (item.focused && state().focus_by_key)
        paper().AddRect(cross.Min, cross.Max, tint(Role::panel), corner(), 0, 2 * hair());
    note(Kind::button, "Put away", cross, item);
    events.notice_put_away = item.pressed;
    const bool is_under = l.rect.Contains(ImGui::GetIO().MousePos);
    events.notice_is_held = events.notice_is_held || item.focused || is_under;
    pop_place();
    ImGui::EndChild();
    pop_name();
}

} // namespace

WorkbenchEvents workbench(std::span<const RailItem> rail, int current, const TopLine& top,
                          const Notice& notice, Body screen, Around around) {
    WorkbenchEvents events;
    const FrameSetup& setup = state().setup;
    const bool is_bare = around == Around::nothing;
    // A low window, or large text in it, leaves the margins' place to what is worked on.
    constexpr float low = 30; // ems
    const bool is_low = setup.height < low * em();
    const float pad = quarters(is_bare ? 2 : 4), below = quarters(is_bare || is_low ? 2 : 4);
    const float rail_wide = is_bare ? 0 : rail_width(rail);
    const float top_high = is_bare ? pad : touch() + quarters(is_low ? 1 : 3);
    if (!is_bare) {
        events.screen = draw_rail(rail, current, {{0, 0}, {rail_wide, setup.height}});
        events.searched = draw_top(top, {{rail_wide, 0}, {setup.width, top_high}});
    }
    const std::string_view name = current >= 0 && current < static_cast<int>(rail.size())
                                      ? rail[static_cast<std::size_t>(current)].name
                                      : "Screen";
    const ImRect rest{{rail_wide + pad, top_high}, {setup.width - pad, setup.height - below}};
    put_cursor(rest.Min);
    push_name(name);
    ImGui::BeginChild("screen", rest.GetSize(), false, ImGuiWindowFlags_NoNav);
    const float bar = state().context->CurrentWindow->ScrollbarY ? ImGui::GetStyle().ScrollbarSize : 0;
    push_place(Place::Kind::stack, rest.Min.x, rest.GetWidth() - bar);
    if (screen)
        screen();
    pop_place();
    ImGui::EndChild();
    if (!notice.words.empty())
        draw_notice(notice, rest, events);
    pop_name();
    return events;
}

} // namespace mellowbin::ui
