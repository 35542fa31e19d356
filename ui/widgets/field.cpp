#include "ui/widgets/field.h"

#include "ui/widgets/button.h"
#include "ui/widgets/field_parts.h"
#include "ui/widgets/text.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

Edited text_field(const Field& field, std::string& text) {
    const FieldFrame frame = begin_field(field, std::min(place().width, px(Length{24})));
    const Edited edited = type_into(field, frame, text, quarters(2), 0);
    end_field(field, frame);
    return edited;
}

Edited text_area(const Field& field, std::string& text, Length height) {
    FieldFrame frame = begin_field(field, place().width);
    frame.box.Max.y = frame.box.Min.y + std::max(px(height), 2 * touch());
    const Edited edited = type_into(field, frame, text, quarters(2), 0, Lines::several);
    end_field(field, frame);
    return edited;
}

Edited number_field(const Field& field, std::string& text) {
    const FieldFrame frame =
        begin_field(field, std::min(place().width, px(Length{state().large ? 14.0f : 8.0f})));
    const Edited edited = type_into(field, frame, text, quarters(2), 0);
    end_field(field, frame);
    return edited;
}

Edited date_field(const Field& field, std::string& iso_day, Day today) {
    const float square = touch(), space = quarters(1);
    const FieldFrame frame = begin_field(field, px(Length{9}), 2 * (square + space));
    Edited edited = type_into(field, frame, iso_day, quarters(2), 0);
    const auto read = read_day(field.label, iso_day);
    const auto step = [&](const char* words, std::string_view shown, Days by, float left) {
        const ImRect rect{{left, frame.box.Min.y}, {left + square, frame.box.Max.y}};
        const bool can = frame.enabled && read; // a text that is no day stays until the person mends it
        push_name(field.label);
        const Pressable item = pressable(words, rect, {.enabled = can});
        pop_name();
        paper().AddRectFilled(rect.Min, rect.Max,
                              item.hovered ? mix(Role::raised, Role::quiet, 0.12f) : tint(Role::raised),
                              corner());
        const ImVec2 size = measure(shown, ordinary());
        draw(rect.GetCenter() - size * 0.5f, shown, can ? tint(Role::accent) : tint(Role::quiet), ordinary());
        if (item.focused && state().focus_by_key)
            focus_ring(rect, quarters(0.5f));
        note(Kind::button, std::string(field.label) + ": " + words, rect, item);
        if (!item.pressed)
            return;
        iso_day = iso(read->has_value() ? **read + by : today);
        edited.changed = true;
    };
    step("a day earlier", "−", Days{-1}, frame.box.Max.x + space);
    step("a day later", "+", Days{1}, frame.box.Max.x + 2 * space + square);
    end_field(field, frame);
    return edited;
}

Edited search_field(const Field& field, std::string& text) {
    Field own = field;
    own.enter = Enter::entered;
    const float icon = quarters(8);
    const FieldFrame frame = begin_field(own, std::min(place().width, px(Length{20})));
    Edited edited = type_into(own, frame, text, icon, text.empty() ? 0 : touch());
    const ImVec2 eye{frame.box.Min.x + quarters(4), frame.box.GetCenter().y - quarters(0.3f)};
    const float r = quarters(1.1f), thick = 1.5f * hair();
    paper().AddCircle(eye, r, tint(Role::quiet), 0, thick);
    paper().AddLine(eye + ImVec2(r * 0.75f, r * 0.75f), eye + ImVec2(r * 1.8f, r * 1.8f), tint(Role::quiet),
                    thick);
    if (!text.empty()) {
        const ImRect rect{{frame.box.Max.x - touch(), frame.box.Min.y}, frame.box.Max};
        const std::string words = std::string(field.label) + ": empty";
        const Pressable item = pressable(words, rect);
        const ImVec2 size = measure("✕", {});
        draw(rect.GetCenter() - size * 0.5f, "✕", item.hovered ? tint(Role::accent) : tint(Role::quiet));
        if (item.focused && state().focus_by_key)
            focus_ring(rect, -quarters(0.5f));
        note(Kind::button, words, rect, item);
        if (item.pressed) {
            text.clear();
            edited.changed = true;
            focus(field.label);
        }
    }
    end_field(own, frame);
    return edited;
}

void all_refusals(const Refusals& refusals) {
    for (const Refusal& r : refusals)
        status(Role::stop, (r.field.empty() ? "" : r.field + ": ") + in_one_line(r));
}

} // namespace mellowbin::ui
