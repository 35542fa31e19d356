#include "ui/widgets/inner.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

void begin_focus(Frame::State& s);
void end_focus(Frame::State& s);

namespace {

bool is_in_ring(const std::vector<Stop>& ring, int layer, ImGuiID id) {
    return std::any_of(ring.begin(), ring.end(),
                       [&](const Stop& s) { return s.layer == layer && s.id == id; });
}

void move_along_ring(Frame::State& s, int step) {
    std::vector<ImGuiID> ids;
    for (const Stop& stop : s.ring_before)
        if (stop.layer == s.top_layer)
            ids.push_back(stop.id);
    if (ids.empty())
        return;
    const auto at = std::find(ids.begin(), ids.end(), s.focus[s.top_layer]);
    const auto n = static_cast<std::ptrdiff_t>(ids.size());
    std::ptrdiff_t next = step > 0 ? 0 : n - 1;
    if (at != ids.end())
        next = (at - ids.begin() + step + n) % n;
    inner::give_focus(ids[static_cast<std::size_t>(next)]);
}

} // namespace

void begin_focus(Frame::State& s) {
    s.ring_before.swap(s.ring);
    s.ring.clear();
    s.first_empty = s.first_field = 0;
    if (!s.key)
        return;
    s.focus_by_key = true;
    if (*s.key == Key::tab) {
        move_along_ring(s, has(s.mods, Mods::shift) ? -1 : 1);
        s.key_used = true;
    }
}

void end_focus(Frame::State& s) {
    if (s.want_first_empty) {
        const ImGuiID wanted = s.first_empty ? s.first_empty : s.first_field;
        if (wanted)
            inner::give_focus(wanted);
        s.want_first_empty = false;
    }
    s.want_label.clear();
    s.top_layer = s.layers_drawn;
    s.focus.resize(static_cast<std::size_t>(s.top_layer) + 1, 0);
    ImGuiID& focused = s.focus[static_cast<std::size_t>(s.top_layer)];
    // What had the focus was not drawn (the screen changed, the row went): nothing has it now.
    if (focused && !is_in_ring(s.ring, s.top_layer, focused) && s.activate != focused)
        focused = 0;
    if (!focused)
        s.focus_is_field = false;
    // Escape that no dialog or list took leaves the field; what was typed stays.
    if (s.key == Key::escape && !s.key_used && s.context->ActiveId != 0)
        ImGui::ClearActiveID();
}

bool key_pressed(Key key, Mods mods) {
    Frame::State& s = inner::state();
    if (s.layer != s.top_layer)
        return false;
    const bool typing = s.focus_is_field && s.context->ActiveId != 0;
    const bool passes = key == Key::escape || (key >= Key::f1 && key <= Key::f12) ||
                        (has(mods, Mods::ctrl) && key != Key::a && key != Key::c && key != Key::v &&
                         key != Key::x && key != Key::y && key != Key::z);
    if (typing && !passes)
        return false;
    return inner::take_key(key, mods);
}

void focus_first_empty_field() {
    Frame::State& s = inner::state();
    s.want_first_empty = true;
    s.first_empty = s.first_field = 0; // of the fields that follow, not of those above
}
void focus(std::string_view label) { inner::state().want_label = label; }

namespace inner {

bool take_key(Key key, Mods mods) {
    Frame::State& s = state();
    if (s.key_used || s.key != key || s.mods != mods)
        return false;
    s.key_used = true;
    return true;
}

bool has_focus(ImGuiID id) {
    const Frame::State& s = state();
    return s.layer == s.top_layer && s.focus[static_cast<std::size_t>(s.layer)] == id;
}

void give_focus(ImGuiID id) {
    Frame::State& s = state();
    ImGuiID& focused = s.focus[static_cast<std::size_t>(s.top_layer)];
    if (s.context->ActiveId != 0 && s.context->ActiveId == focused && focused != id)
        ImGui::ClearActiveID();
    focused = id;
    s.activate = s.bring = id;
    s.quiet_frames = std::max(s.quiet_frames, 2);
}

// Dear ImGui keeps its own copy of the text while a field is open and would write it back over what the
// program put there (a form emptied after saving): close the field and open it anew.
void take_changes(ImGuiID id, const std::string& text) {
    Frame::State& s = state();
    if (s.context->ActiveId != id || text == s.being_typed)
        return;
    ImGui::ClearActiveID();
    s.activate = id;
}

void give_focus_beside(int step) { move_along_ring(state(), step); }

ImGuiID id_of(std::string_view label) {
    return state().context->CurrentWindow->GetID(label.data(), label.data() + label.size());
}

void focus_in_layer(ImGuiID id) {
    Frame::State& s = state();
    if (s.focus.size() <= static_cast<std::size_t>(s.layer))
        s.focus.resize(static_cast<std::size_t>(s.layer) + 1, 0);
    // A field still typed into would take the focus back.
    if (s.layer == s.top_layer && s.context->ActiveId != 0 && s.context->ActiveId != id)
        ImGui::ClearActiveID();
    s.focus[static_cast<std::size_t>(s.layer)] = s.activate = s.bring = id;
    s.quiet_frames = std::max(s.quiet_frames, 2);
}

bool layer_is_new() { return state().layer > state().top_layer; }

namespace {

/// Scrolls to what was asked for, when it is drawn.
void bring_into_view(ImGuiID id, const ImRect& rect) {
    Frame::State& s = state();
    if (s.bring != id)
        return;
    s.bring = 0;
    ImRect around = rect;
    around.Expand(quarters(3));
    around.Max.y += 2 * line(); // and what stands under it: a refusal, a note
    ImGui::ScrollToRect(s.context->CurrentWindow, around,
                        ImGuiScrollFlags_KeepVisibleEdgeX | ImGuiScrollFlags_KeepVisibleEdgeY);
    s.quiet_frames = std::max(s.quiet_frames, 2);
}

} // namespace

bool stop_here(ImGuiID id, std::string_view label, const ImRect& rect, bool enabled) {
    Frame::State& s = state();
    if (enabled)
        s.ring.push_back({id, s.layer});
    if (!s.want_label.empty() && label == s.want_label) {
        s.want_label.clear();
        focus_in_layer(id);
    }
    bring_into_view(id, rect);
    return has_focus(id);
}

Pressable pressable(std::string_view label, const ImRect& rect, PressOptions options) {
    Frame::State& s = state();
    Pressable item;
    item.id = id_of(label);
    item.enabled = options.enabled;
    if (!options.enabled)
        ImGui::BeginDisabled();
    item.visible = ImGui::ItemAdd(rect, item.id);
    if (options.stops == Stops::yes)
        item.focused = stop_here(item.id, label, rect, options.enabled);
    else
        bring_into_view(item.id, rect);
    bool pressed = false;
    if (item.visible)
        pressed = ImGui::ButtonBehavior(rect, item.id, &item.hovered, &item.held,
                                        options.at_once ? ImGuiButtonFlags_PressedOnClick : 0);
    if (!options.enabled)
        ImGui::EndDisabled();
    if (!options.enabled) {
        item.held = false;
        return item;
    }
    if (item.held && options.stops == Stops::yes && s.layer == s.top_layer && !item.focused) {
        s.focus[static_cast<std::size_t>(s.layer)] = item.id;
        item.focused = true;
    }
    if (item.focused && s.activate == item.id) {
        s.activate = 0;
        item.just_focused = true;
    }
    if (item.focused)
        s.focus_is_field = false;
    item.double_clicked = item.hovered && ImGui::IsMouseDoubleClicked(0);
    if (item.focused && options.by_key && (take_key(Key::space) || take_key(Key::enter)))
        pressed = true;
    item.pressed = pressed;
    hand_cursor(item.hovered);
    return item;
}

} // namespace inner
} // namespace mellowbin::ui
