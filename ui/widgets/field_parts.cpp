#include "ui/widgets/field_parts.h"

#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

std::string in_one_line(const Refusal& refusal) {
    std::string words = refusal.what;
    if (!refusal.remedy.empty())
        words += (words.empty() || words.back() == '.' ? " " : ". ") + refusal.remedy;
    return words;
}

float words_under(std::string_view words, Role role, Kind kind, ImVec2 at, float width) {
    const Words style{};
    const float room = role == Role::stop ? measure("✕", style).x + quarters(1) : 0;
    const ImVec2 size = measure(words, style, std::max(1.0f, width - room));
    if (room > 0)
        draw(at, sign(Role::stop), tint(role), style);
    draw(at + ImVec2(room, 0), words, tint(role), style, std::max(1.0f, width - room));
    note_words(words, at, {size.x + room, size.y}, kind);
    return size.y;
}

namespace {

bool is_refused(const Field& field) {
    return field.refusals && std::any_of(field.refusals->begin(), field.refusals->end(),
                                         [&](const Refusal& r) { return r.field == field.label; });
}

} // namespace

float label_column(std::string_view label) {
    float& widest = state().remembered[id_of("labels at the left")];
    widest = std::max(widest, measure(label, ordinary()).x);
    return widest + quarters(3);
}

FieldFrame begin_field(const Field& field, float natural, float beside) {
    const Words style = ordinary();
    const float unit = field.unit.empty() ? 0 : measure(field.unit, style).x + quarters(1.5f);
    const float wanted = field.width.ems > 0 ? px(field.width) : natural;
    const bool above = field.label_place == LabelPlace::above;
    const float before = field.label_place == LabelPlace::left ? label_column(field.label) : 0;
    const float label_height = above ? measure(field.label, style).y + quarters(0.5f) : 0;

    FieldFrame frame;
    frame.refused = is_refused(field);
    frame.enabled = field.blocked.empty();
    frame.spot = open_spot(before + wanted + unit + beside, Claim::natural, label_height);
    const float box = std::max(2 * em(), std::min(wanted, frame.spot.width - before - unit - beside));
    frame.width = before + box + unit + beside;
    const ImVec2 at = frame.spot.at + ImVec2(before, label_height);
    frame.box = {at, at + ImVec2(box, touch())};
    const float middle = frame.box.Min.y + std::round((touch() - measure("x", style).y) / 2);
    if (above)
        draw_clipped(frame.spot.at, std::max(frame.width, frame.spot.width), field.label, tint(Role::quiet),
                     style);
    if (before > 0)
        draw({frame.spot.at.x, middle}, field.label, tint(Role::quiet), style);
    draw({frame.box.Max.x + beside + quarters(1.5f), middle}, field.unit, tint(Role::quiet), style);
    return frame;
}

void end_field(const Field& field, const FieldFrame& frame) {
    ImVec2 at{frame.box.Min.x, frame.box.Max.y + quarters(0.5f)};
    // Words under a narrow box may be wider than it, but not in a flow where the next thing stands beside it.
    const bool in_flow = place().kind == Place::Kind::flow;
    const float room =
        in_flow ? std::max(frame.width, px(Length{8})) : frame.spot.at.x + frame.spot.width - at.x;
    float bottom = frame.box.Max.y;
    if (place().messages_aside) {
        close_spot(frame.spot, frame.width, bottom - frame.spot.at.y);
        return;
    }
    const auto under = [&](std::string_view words, Role role, Kind kind) {
        at.y += words_under(words, role, kind, at, room);
        bottom = at.y;
    };
    if (field.refusals)
        for (const Refusal& refusal : *field.refusals)
            if (refusal.field == field.label)
                under(in_one_line(refusal), Role::stop, Kind::refusal);
    if (!field.blocked.empty())
        under(field.blocked, Role::quiet, Kind::text);
    if (!field.note.empty())
        under(field.note, Role::quiet, Kind::text);
    close_spot(frame.spot, in_flow ? std::max(frame.width, bottom > frame.box.Max.y ? room : 0) : frame.width,
               bottom - frame.spot.at.y);
}

void draw_box(const FieldFrame& frame, bool focused, bool hovered) {
    const ImU32 fill = !frame.enabled ? mix(Role::panel, Role::raised, 0.45f)
                       : hovered      ? mix(Role::panel, Role::raised, 0.3f)
                                      : tint(Role::panel);
    paper().AddRectFilled(frame.box.Min, frame.box.Max, fill, corner());
    const ImU32 edge = frame.refused    ? tint(Role::stop)
                       : focused        ? tint(Role::accent)
                       : !frame.enabled ? faint_line()
                                        : border_line();
    const float thick = (frame.refused || focused ? 2 : 1) * hair();
    paper().AddRect(frame.box.Min, frame.box.Max, edge, corner(), 0, thick);
    if (focused && frame.refused)
        focus_ring(frame.box, quarters(0.5f));
}

namespace {

/// The field was open for typing when it was drawn last, and is not now. (Dear ImGui tells only of a field
/// that nothing took the focus from before the next frame; Tab gives it to a field further down in this one.)
bool was_left(ImGuiID id, bool typing) {
    auto& typed_into = state().typed_into;
    const auto at = std::find(typed_into.begin(), typed_into.end(), id);
    const bool was_typing = at != typed_into.end();
    if (typing && !was_typing)
        typed_into.push_back(id);
    if (!typing && was_typing)
        typed_into.erase(at);
    return was_typing && !typing;
}

/// The box of Dear ImGui at the cursor. In one of several lines Enter begins the next line.
bool typed_in_box(const Field& field, const FieldFrame& frame, const std::string& label, std::string& text,
                  float width, Lines lines) {
    if (lines == Lines::one) {
        ImGui::SetNextItemWidth(width);
        const std::string hint(field.hint);
        return ImGui::InputTextWithHint(label.c_str(), hint.c_str(), &text);
    }
    if (has_focus(id_of(label)) && take_key(Key::enter))
        ImGui::GetIO().AddInputCharacter('\n');
    // Tabs come in with what was copied from a spreadsheet; the key stays ours.
    const bool changed = ImGui::InputTextMultiline(label.c_str(), &text, {width, frame.box.GetHeight()},
                                                   ImGuiInputTextFlags_AllowTabInput);
    if (text.empty())
        draw(frame.box.Min + ImVec2(quarters(2), quarters(1.5f)), field.hint, tint(Role::quiet));
    return changed;
}

} // namespace

Edited type_into(const Field& field, const FieldFrame& frame, std::string& text, float from, float to,
                 Lines lines) {
    Frame::State& s = state();
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

    draw_box(frame, focused, frame.enabled && s.context->HoveredIdPreviousFrame == id);

    s.fonts.want(text, ordinary().size);
    const Typeface face = s.fonts.face(ordinary().size, Weight::regular);
    ImGui::PushFont(face.font);
    const float pad_y =
        lines == Lines::several ? quarters(1.5f) : std::floor((touch() - ImGui::GetFontSize()) / 2);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(from, pad_y));
    put_cursor(frame.box.Min);
    if (!frame.enabled)
        ImGui::BeginDisabled();
    if (!frame.enabled)
        ImGui::PushStyleColor(ImGuiCol_Text, tint(Role::quiet));
    edited.changed = typed_in_box(field, frame, label, text, frame.box.GetWidth() - to, lines);
    if (!frame.enabled)
        ImGui::PopStyleColor();
    if (!frame.enabled)
        ImGui::EndDisabled();
    ImGui::PopStyleVar();
    ImGui::PopFont();
    const bool typing = s.context->ActiveId == id;
    edited.left = was_left(id, typing);
    if (typing)
        s.being_typed = text;
    if (typing && s.activate == id)
        s.activate = 0;
    if (typing && !focused && s.layer == s.top_layer)
        s.focus[static_cast<std::size_t>(s.layer)] = id;
    if (has_focus(id)) {
        s.focus_is_field = true;
        s.focus_takes_enter = field.enter == Enter::main_action && lines == Lines::one;
        s.focus_form = s.forms.back();
        if (field.enter == Enter::entered && take_key(Key::enter))
            edited.entered = true;
    }
    if (Note* made = note(Kind::field, field.label, frame.box, id)) {
        made->value = text;
        made->unit = field.unit;
        made->enabled = frame.enabled;
        made->focused = has_focus(id);
        made->hovered = s.context->HoveredId == id;
    }
    return edited;
}

} // namespace mellowbin::ui::inner
