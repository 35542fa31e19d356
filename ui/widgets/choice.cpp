#include "ui/widgets/field_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

constexpr int most_answers = 4; ///< side by side

using Options = FunctionRef<std::string_view(int)>;

/// Arrows change the answer while the choice has the focus.
bool step_by_arrows(bool focused, int count, int& chosen) {
    if (!focused || count == 0)
        return false;
    const int before = chosen;
    if (take_key(Key::left) || take_key(Key::up))
        chosen = std::max(0, chosen - 1);
    if (take_key(Key::right) || take_key(Key::down))
        chosen = std::min(count - 1, chosen + 1);
    return chosen != before;
}

void note_choice(const Field& field, const ImRect& rect, ImGuiID id, bool enabled, std::string_view value) {
    Note* made = note(Kind::choice, field.label, rect, id);
    if (!made)
        return;
    made->value = value;
    made->unit = field.unit;
    made->enabled = enabled;
    made->focused = has_focus(id);
}

float segment_width(std::string_view words) { return measure(words, ordinary()).x + quarters(5); }

bool segments(const Field& field, Options option, int count, float natural, int& chosen) {
    const FieldFrame frame = begin_field(field, natural);
    push_name(field.label);
    const ImGuiID id = id_of("choice");
    const bool focused = stop_here(id, field.label, frame.box, frame.enabled);
    if (focused && state().activate == id)
        state().activate = 0;
    if (focused)
        state().focus_is_field = false;
    const int before = chosen;
    paper().AddRectFilled(frame.box.Min, frame.box.Max, tint(frame.enabled ? Role::panel : Role::raised),
                          corner());
    note_choice(field, frame.box, id, frame.enabled,
                chosen >= 0 && chosen < count ? option(chosen) : std::string_view{});
    float x = frame.box.Min.x;
    const float stretch = frame.box.GetWidth() / natural;
    for (int i = 0; i < count; ++i) {
        const std::string_view words = option(i);
        const float width = std::round(segment_width(words) * stretch);
        const ImRect rect{{x, frame.box.Min.y},
                          {i + 1 == count ? frame.box.Max.x : x + width, frame.box.Max.y}};
        const Pressable item =
            pressable(words, rect, {.enabled = frame.enabled, .stops = Stops::no, .by_key = false});
        if (item.pressed) {
            chosen = i;
            give_focus(id);
        }
        const bool is_it = i == chosen;
        const ImDrawFlags round = (i == 0 ? ImDrawFlags_RoundCornersLeft : 0) |
                                  (i + 1 == count ? ImDrawFlags_RoundCornersRight : 0);
        const ImU32 fill = is_it          ? tint(frame.enabled ? Role::accent : Role::quiet)
                           : item.hovered ? tint(Role::raised)
                                          : 0;
        if (fill)
            paper().AddRectFilled(rect.Min, rect.Max, fill, corner(),
                                  round ? round : ImDrawFlags_RoundCornersNone);
        if (i > 0 && !is_it && i - 1 != chosen)
            paper().AddRectFilled({x, rect.Min.y + quarters(1)}, {x + hair(), rect.Max.y - quarters(1)},
                                  faint_line());
        const ImVec2 size = measure(words, ordinary());
        draw(rect.GetCenter() - size * 0.5f, words,
             is_it ? tint(Role::panel) : tint(frame.enabled ? Role::accent : Role::quiet), ordinary());
        if (Note* made = note(Kind::option, words, rect, item))
            made->chosen = is_it;
        x = rect.Max.x;
    }
    paper().AddRect(frame.box.Min, frame.box.Max, frame.refused ? tint(Role::stop) : border_line(), corner(),
                    0, hair());
    if (focused && state().focus_by_key)
        focus_ring(frame.box, quarters(0.5f));
    step_by_arrows(focused, count, chosen);
    pop_name();
    end_field(field, frame);
    return chosen != before;
}

/// The open list over the screen. True when it is to be closed.
bool open_list(const ImRect& box, Options option, int count, int& chosen) {
    begin_layer("list", 0);
    const float row = touch(), room = state().setup.height - quarters(4);
    const float height = std::min(row * static_cast<float>(count) + quarters(2), std::min(room, row * 9));
    float top = box.Max.y + quarters(1);
    if (top + height > room)
        top = std::max(quarters(2), box.Min.y - quarters(1) - height);
    const ImRect rect{{box.Min.x, top}, {box.Max.x, top + height}};
    const bool outside =
        ImGui::IsMouseClicked(0) && !rect.Contains(ImGui::GetIO().MousePos) && !layer_is_new();
    paper().AddRectFilled(rect.Min + ImVec2(0, hair()), rect.Max + ImVec2(0, quarters(1)),
                          IM_COL32(20, 17, 13, 40), corner());
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::panel), corner());
    paper().AddRect(rect.Min, rect.Max, border_line(), corner(), 0, hair());
    bool close = outside || take_key(Key::escape);
    scrolling("options", {rect.Min + ImVec2(0, quarters(1)), rect.Max - ImVec2(0, quarters(1))}, 0, [&] {
        for (int i = 0; i < count; ++i) {
            const Spot spot = open_spot(place().width);
            const ImRect at{spot.at, spot.at + ImVec2(box.GetWidth(), row)};
            const Pressable item = pressable(option(i), at);
            if (layer_is_new() && i == std::max(0, chosen))
                focus_in_layer(item.id);
            if (item.hovered || item.focused)
                paper().AddRectFilled(at.Min, at.Max, tint(Role::raised));
            if (item.focused)
                paper().AddRectFilled(at.Min, at.Min + ImVec2(quarters(0.75f), row), tint(Role::accent));
            const float y = at.Min.y + std::round((row - measure("x", ordinary()).y) / 2);
            if (i == chosen)
                draw({at.Min.x + quarters(2), y}, "✓", tint(Role::accent), ordinary());
            draw_clipped({at.Min.x + quarters(6), y}, at.GetWidth() - quarters(7), option(i), tint(Role::ink),
                         ordinary());
            if (Note* made = note(Kind::option, option(i), at, item))
                made->chosen = i == chosen;
            if (item.focused && take_key(Key::down))
                give_focus_beside(1);
            if (item.focused && take_key(Key::up))
                give_focus_beside(-1);
            if (item.pressed) {
                chosen = i;
                close = true;
            }
            close_spot(spot, at.GetWidth(), row, 0);
        }
    });
    end_layer();
    return close;
}

bool drop_down(const Field& field, Options option, int count, float natural, int& chosen) {
    const FieldFrame frame = begin_field(field, natural);
    push_name(field.label);
    const Pressable item = pressable("choice", frame.box, {.enabled = frame.enabled});
    draw_box(frame, item.focused && state().focus_by_key, item.hovered);
    const std::string_view value = chosen >= 0 && chosen < count ? option(chosen) : std::string_view{};
    const float y = frame.box.Min.y + std::round((touch() - measure("x", ordinary()).y) / 2);
    const float arrow = quarters(6);
    draw_clipped({frame.box.Min.x + quarters(2), y}, frame.box.GetWidth() - quarters(2) - arrow,
                 value.empty() ? (field.hint.empty() ? std::string_view("choose") : field.hint) : value,
                 value.empty() || !frame.enabled ? tint(Role::quiet) : tint(Role::ink), ordinary());
    const ImVec2 tip{frame.box.Max.x - quarters(3), frame.box.GetCenter().y + quarters(0.5f)};
    const float r = quarters(0.9f);
    const ImVec2 points[]{tip + ImVec2(-r, -r), tip, tip + ImVec2(r, -r)};
    paper().AddPolyline(points, 3, tint(frame.enabled ? Role::accent : Role::quiet), 0, 2 * hair());
    note_choice(field, frame.box, item.id, frame.enabled, value);

    const int before = chosen;
    float& is_open = state().remembered[id_of("open")];
    const bool opens = item.pressed || (item.focused && state().key == Key::down && is_open == 0 &&
                                        chosen < 0 && take_key(Key::down));
    if (!opens)
        step_by_arrows(item.focused && is_open == 0, count, chosen);
    if (is_open > 0 && open_list(frame.box, option, count, chosen))
        is_open = 0;
    if (opens)
        is_open = 1;
    if (opens)
        state().quiet_frames = 3;
    pop_name();
    end_field(field, frame);
    return chosen != before;
}

/// `most` answers at the most stand side by side.
bool any_choice(const Field& field, Options option, int count, int most, int& chosen) {
    float side_by_side = 0, widest = px(Length{6});
    for (int i = 0; i < count; ++i) {
        side_by_side += segment_width(option(i));
        widest = std::max(widest, measure(option(i), ordinary()).x);
    }
    float room = place().kind == Place::Kind::grid ? place().cell : place().width;
    if (field.label_place == LabelPlace::left)
        room -= label_column(field.label);
    if (!field.unit.empty())
        room -= measure(field.unit, ordinary()).x + quarters(1.5f);
    if (field.width.ems > 0)
        room = std::min(room, px(field.width));
    if (count <= most && side_by_side <= room)
        return segments(field, option, count, side_by_side, chosen);
    return drop_down(field, option, count, std::min(widest + quarters(9), room), chosen);
}

} // namespace

bool choice(const Field& field, std::span<const std::string> options, int& chosen) {
    return any_choice(
        field, [&](int i) { return std::string_view(options[static_cast<std::size_t>(i)]); },
        static_cast<int>(options.size()), most_answers, chosen);
}

bool choice(const Field& field, std::span<const std::string_view> options, int& chosen) {
    return any_choice(
        field, [&](int i) { return options[static_cast<std::size_t>(i)]; }, static_cast<int>(options.size()),
        most_answers, chosen);
}

bool pages(const Field& field, std::span<const std::string_view> names, int& page) {
    const auto count = static_cast<int>(names.size());
    return any_choice(
        field, [&](int i) { return names[static_cast<std::size_t>(i)]; }, count, count, page);
}

} // namespace mellowbin::ui
