#include "ui/widgets/field_parts.h"

#include <imgui_stdlib.h>

#include <algorithm>

namespace mellowbin::ui {

using namespace inner;

Edited notes_field(const Field& field, std::string& text, int lines) {
    Frame::State& s = state();
    FieldFrame frame = begin_field(field, std::min(place().width, px(Length{30})));
    frame.box.Max.y = frame.box.Min.y + line() * static_cast<float>(lines) + quarters(3);
    Edited edited;
    const std::string label = "##" + std::string(field.label);
    const ImGuiID id = id_of(label);
    const bool focused = stop_here(id, field.label, frame.box, frame.enabled);
    if (!s.first_field && frame.enabled)
        s.first_field = id;
    if (!s.first_empty && frame.enabled && text.empty())
        s.first_empty = id;
    take_changes(id, text);
    if (focused && s.activate == id)
        s.context->NavActivateInputId = id;
    draw_box(frame, focused, false);

    s.fonts.want(text, ordinary().size);
    ImGui::PushFont(s.fonts.face(ordinary().size, Weight::regular).font);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(quarters(2), quarters(1.5f)));
    put_cursor(frame.box.Min);
    if (!frame.enabled)
        ImGui::BeginDisabled();
    edited.changed = ImGui::InputTextMultiline(label.c_str(), &text, frame.box.GetSize());
    if (!frame.enabled)
        ImGui::EndDisabled();
    ImGui::PopStyleVar();
    ImGui::PopFont();
    edited.left = ImGui::IsItemDeactivated();
    const bool typing = s.context->ActiveId == id;
    if (typing)
        s.being_typed = text;
    if (typing && s.activate == id)
        s.activate = 0;
    if (typing && !focused && s.layer == s.top_layer)
        s.focus[static_cast<std::size_t>(s.layer)] = id;
    if (has_focus(id)) {
        s.focus_is_field = s.focus_is_notes = true;
        s.focus_takes_enter = false;
    }
    if (Note* made = note(Kind::field, field.label, frame.box, id)) {
        made->value = text;
        made->enabled = frame.enabled;
        made->focused = has_focus(id);
        made->hovered = s.context->HoveredId == id;
    }
    end_field(field, frame);
    return edited;
}

} // namespace mellowbin::ui
