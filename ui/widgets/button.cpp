#include "ui/widgets/button.h"

#include "ui/widgets/inner.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

struct Dress {
    ImU32 fill, edge, words;
};

Dress dress(ButtonKind kind, const Pressable& item) {
    const float deeper = item.held ? 0.22f : item.hovered ? 0.12f : 0.0f;
    if (!item.enabled)
        return {mix(Role::panel, Role::raised, 0.45f), faint_line(), mix(Role::panel, Role::quiet, 0.8f)};
    switch (kind) {
    case ButtonKind::primary:
        return {mix(Role::accent, Role::ink, deeper * 1.4f), tint(Role::accent, 0), tint(Role::panel)};
    case ButtonKind::stop:
        return {mix(Role::panel, Role::stop, 0.04f + deeper), tint(Role::stop), tint(Role::stop)};
    case ButtonKind::quiet:
        return {tint(Role::accent, deeper), 0, tint(Role::accent)};
    case ButtonKind::ordinary:
        break;
    }
    return {mix(Role::raised, Role::quiet, deeper), mix(Role::raised, Role::quiet, 0.3f), tint(Role::accent)};
}

/// Enter in a field of the same form presses the form's primary button.
bool is_main_action(const Button& options) {
    Frame::State& s = state();
    return options.kind == ButtonKind::primary && options.blocked.empty() && s.layer == s.top_layer &&
           s.focus_is_field && s.focus_takes_enter && s.focus_form == s.forms.back() && take_key(Key::enter);
}

float draw_reason(std::string_view reason, ImVec2 at, float width) {
    const ImVec2 size = measure(reason, {}, width);
    draw(at, reason, tint(Role::quiet), {}, width);
    note_words(reason, at, size);
    return size.y;
}

} // namespace

bool button(std::string_view label, const Button& options) {
    const Words style{ordinary().size, Weight::bold};
    const bool enabled = options.blocked.empty();
    const float pad = options.kind == ButtonKind::quiet ? quarters(2) : quarters(3.5f);
    const float key_room = options.key.empty() ? 0 : measure(options.key, {}).x + quarters(2);
    const ImVec2 words = measure(label, style);
    const float natural = options.width.ems > 0 ? px(options.width) : words.x + key_room + 2 * pad;
    const Spot spot = open_spot(natural);
    const float width = std::min(std::max(natural, touch()), spot.width);
    const float wrap = width - 2 * pad - key_room;
    const ImVec2 text = words.x > wrap ? measure(label, style, wrap) : words;
    const float height = std::max(touch(), text.y + quarters(2));
    const ImRect rect{spot.at, spot.at + ImVec2(width, height)};

    Pressable item = pressable(label, rect, {.enabled = enabled});
    if (enabled && is_main_action(options))
        item.pressed = true;
    const Dress worn = dress(options.kind, item);
    paper().AddRectFilled(rect.Min, rect.Max, worn.fill, corner());
    if (worn.edge)
        paper().AddRect(rect.Min, rect.Max, worn.edge, corner(), 0, hair());
    const float x = std::round(rect.Min.x + (width - key_room - std::min(text.x, std::max(1.0f, wrap))) / 2);
    draw({x, rect.Min.y + (height - text.y) / 2}, label, worn.words, style, words.x > wrap ? wrap : 0);
    if (!options.key.empty())
        draw_right(rect.Max.x - pad, rect.Min.y + (height - measure(options.key).y) / 2, options.key,
                   options.kind == ButtonKind::primary && enabled ? tint(Role::panel, 0.8f)
                                                                  : tint(Role::quiet));
    if (item.focused && state().focus_by_key)
        focus_ring(rect, quarters(0.5f));
    note(Kind::button, label, rect, item);
    tip_for(item.hovered, options.tip);

    float below = 0;
    float used = width;
    if (!enabled) {
        const float beside = spot.width - width - quarters(2);
        const bool fits = place().kind != Place::Kind::grid && measure(options.blocked).x <= beside;
        if (fits) {
            draw_reason(options.blocked, {rect.Max.x + quarters(2), rect.Min.y + (height - line()) / 2},
                        beside);
            used += quarters(2) + measure(options.blocked).x;
        } else {
            used = std::max(width, std::min(spot.width, px(Length{14})));
            below = draw_reason(options.blocked, {rect.Min.x, rect.Max.y + quarters(0.5f)}, used) +
                    quarters(0.5f);
        }
    }
    close_spot(spot, used, height + below);
    return item.pressed;
}

Stepped stepper(const Stepper& words) {
    const Words bold{TextSize::text, Weight::bold};
    const float arrow = std::max(quarters(7), touch() * 0.8f),
                middle = measure(words.here, bold).x + quarters(5);
    const Spot spot = open_spot(2 * arrow + middle);
    const float wide = std::min(spot.width, 2 * arrow + middle);
    const ImRect all{spot.at, spot.at + ImVec2(wide, touch())};
    paper().AddRectFilled(all.Min, all.Max, tint(Role::panel), corner());
    Stepped stepped = Stepped::not_at_all;
    const auto part = [&](std::string_view label, std::string_view shown, float from, float to,
                          Stepped what) {
        const ImRect rect{{from, all.Min.y}, {to, all.Max.y}};
        const Pressable item = pressable(label, rect);
        if (item.hovered)
            paper().AddRectFilled(rect.Min, rect.Max, tint(Role::accent, 0.12f), corner());
        const Words style = what == Stepped::here ? bold : Words{TextSize::heading, Weight::regular};
        const ImVec2 size = measure(shown, style);
        draw({std::round(rect.GetCenter().x - size.x / 2), rect.GetCenter().y - size.y / 2}, shown,
             tint(what == Stepped::here ? Role::ink : Role::accent), style);
        if (item.focused && state().focus_by_key)
            focus_ring(rect, -quarters(0.5f));
        note(Kind::button, label, rect, item);
        tip_for(item.hovered, label);
        if (item.pressed)
            stepped = what;
    };
    const float left = all.Min.x + arrow, right = all.Max.x - arrow;
    part(words.back, "‹", all.Min.x, left, Stepped::back);
    part(words.here, words.here, left, right, Stepped::here);
    part(words.on, "›", right, all.Max.x, Stepped::on);
    for (const float x : {left, right})
        paper().AddRectFilled({x, all.Min.y + quarters(1)}, {x + hair(), all.Max.y - quarters(1)},
                              faint_line());
    paper().AddRect(all.Min, all.Max, border_line(), corner(), 0, hair());
    close_spot(spot, wide, touch());
    return stepped;
}

bool progress(const Progress& p) {
    bool stopped = false;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float width = spot.width;
    ImVec2 at = spot.at;
    draw(at, p.label, tint(Role::ink), {TextSize::text, Weight::bold});
    note_words(p.label, at, {width, line()});
    at.y += line();
    const ImVec2 words = measure(p.words, {}, width);
    draw(at, p.words, tint(Role::quiet), {}, width);
    note_words(p.words, at, words);
    at.y += words.y + quarters(1);

    const ImVec2 size{width, quarters(1.5f)};
    paper().AddRectFilled(at, at + size, tint(Role::raised), size.y / 2);
    if (p.done) {
        const float filled = size.x * static_cast<float>(std::clamp(*p.done, 0.0, 1.0));
        paper().AddRectFilled(at, at + ImVec2(std::max(filled, size.y), size.y), tint(Role::accent),
                              size.y / 2);
    } else { // busy, but how long is not known: a piece that travels
        const float t = 0.5f - 0.5f * std::cos(static_cast<float>(ImGui::GetTime()) * 1.6f);
        const float piece = size.x * 0.2f, from = (size.x - piece) * t;
        paper().AddRectFilled(at + ImVec2(from, 0), at + ImVec2(from + piece, size.y), tint(Role::accent),
                              size.y / 2);
    }
    at.y += size.y;
    close_spot(spot, width, at.y - spot.at.y);
    state().is_moving = true;
    if (!p.stop_verb.empty())
        stopped = button(p.stop_verb, {.kind = ButtonKind::stop});
    return stopped;
}

} // namespace mellowbin::ui
