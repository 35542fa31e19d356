#include "ui/widgets/inner.h"

#include <algorithm>
#include <cfloat>
#include <cmath>

namespace mellowbin::ui::inner {

namespace {

float scale() {
    const FrameSetup& setup = state().setup;
    return setup.content_scale * setup.text_size;
}

const char* begin_of(std::string_view words) { return words.data(); }
const char* end_of(std::string_view words) { return words.data() + words.size(); }

} // namespace

float em() { return std::round(16 * scale()); }
float line() { return std::round(22 * scale()); }
float touch() {
    if (state().bowl > 0)
        return grown(64);
    return std::round((state().large > 0 ? 64.0f : 44.0f) * scale());
}

float growth(const FrameSetup& setup) {
    // in steps, so that a window drawn larger does not build its letters anew at every pixel
    constexpr float step = 0.05f, least = 0.75f, most = 4;
    const float room = std::min(setup.width / 1280, setup.height / 720);
    return std::clamp(std::floor(room / step + 0.01f) * step, least * setup.content_scale, most);
}
float grown(float pixels) { return std::round(pixels * growth(state().setup)); }
float hair() { return std::max(1.0f, std::floor(scale())); }
float corner() { return std::round(5 * scale()); }

ImU32 tint(Role role, float alpha) {
    const Colour c = colour(state().setup.palette, role);
    return IM_COL32(c.r, c.g, c.b, static_cast<int>(std::lround(alpha * 255)));
}

ImU32 mix(Role one, Role other, float share) {
    const Colour a = colour(state().setup.palette, one);
    const Colour b = colour(state().setup.palette, other);
    const auto between = [share](std::uint8_t x, std::uint8_t y) {
        return static_cast<int>(std::lround(x + (y - x) * share));
    };
    return IM_COL32(between(a.r, b.r), between(a.g, b.g), between(a.b, b.b), 255);
}

Words ordinary() {
    if (state().bowl > 0)
        return {TextSize::mixer_note, Weight::regular};
    return {state().large > 0 ? TextSize::heading : TextSize::text, Weight::regular};
}

ImVec2 measure(std::string_view words, Words style, float wrap) {
    Fonts& fonts = state().fonts;
    fonts.want(words, style.size);
    const Typeface face = fonts.face(style.size, style.weight);
    if (words.empty())
        return {0, face.size};
    if (wrap > 0) {
        float widest = 0;
        const auto lines = lines_of(words, face, wrap);
        for (const std::string_view one : lines)
            if (!one.empty())
                widest = std::max(
                    widest, face.font->CalcTextSizeA(face.size, FLT_MAX, 0, begin_of(one), end_of(one)).x);
        return {std::ceil(widest), face.size * static_cast<float>(lines.size())};
    }
    const ImVec2 size = face.font->CalcTextSizeA(face.size, FLT_MAX, 0, begin_of(words), end_of(words));
    return {std::ceil(size.x), size.y};
}

void draw(ImVec2 at, std::string_view words, ImU32 colour, Words style, float wrap) {
    if (words.empty())
        return;
    Fonts& fonts = state().fonts;
    fonts.want(words, style.size);
    const Typeface face = fonts.face(style.size, style.weight);
    const auto one_line = [&](std::string_view one, float y) {
        if (!one.empty())
            paper().AddText(face.font, face.size, {std::round(at.x), std::round(y)}, colour, begin_of(one),
                            end_of(one));
    };
    if (wrap <= 0)
        return one_line(words, at.y);
    for (const std::string_view one : lines_of(words, face, wrap)) {
        one_line(one, at.y);
        at.y += face.size;
    }
}

void draw_clipped(ImVec2 at, float width, std::string_view words, ImU32 colour, Words style) {
    if (measure(words, style).x <= width) {
        draw(at, words, colour, style);
        return;
    }
    const Typeface face = state().fonts.face(style.size, style.weight);
    const float dots = measure("…", style).x;
    const char* cut = nullptr;
    const ImVec2 kept = face.font->CalcTextSizeA(face.size, std::max(1.0f, width - dots), 0, begin_of(words),
                                                 end_of(words), &cut);
    draw(at, words.substr(0, static_cast<std::size_t>(cut - words.data())), colour, style);
    draw({at.x + kept.x, at.y}, "…", colour, style);
}

void draw_right(float right, float y, std::string_view words, ImU32 colour, Words style) {
    draw({right - measure(words, style).x, y}, words, colour, style);
}

ImDrawList& paper() { return *ImGui::GetWindowDrawList(); }

void focus_ring(const ImRect& rect, float outset) {
    const float thick = std::max(2.0f, std::round(2 * scale()));
    paper().AddRect(rect.Min - ImVec2(outset, outset), rect.Max + ImVec2(outset, outset), tint(Role::accent),
                    corner() + outset, 0, thick);
}

void hand_cursor(bool hovered) {
    if (hovered)
        state().cursor = Frame::Cursor::hand;
}

Note* note(Kind kind, std::string_view label, const ImRect& rect, ImGuiID id) {
    Frame::State& s = state();
    if (s.setup.probing == Probing::off)
        return nullptr;
    Note made;
    made.kind = kind;
    made.label = label;
    for (const std::string& name : s.names)
        made.path += name + "/";
    made.path += label;
    made.rect = {rect.Min.x, rect.Min.y, rect.Max.x, rect.Max.y};
    ImRect seen = rect;
    const ImGuiWindow* window = s.context->CurrentWindow;
    seen.ClipWithFull(window->ClipRect);
    for (const ImGuiWindow* w = window->ParentWindow; w && (window->Flags & ImGuiWindowFlags_ChildWindow);
         w = w->ParentWindow)
        seen.ClipWithFull(w->InnerClipRect);
    made.seen = {seen.Min.x, seen.Min.y, seen.Max.x, seen.Max.y};
    made.visible = seen.GetWidth() > 0.5f && seen.GetHeight() > 0.5f && !window->Hidden;
    made.id = id;
    made.layer = s.layer;
    return &s.probe.add(std::move(made));
}

void note_words(std::string_view words, ImVec2 at, ImVec2 size, Kind kind) {
    if (!words.empty())
        note(kind, words, {at, at + size});
}

Note* note(Kind kind, std::string_view label, const ImRect& rect, const Pressable& item) {
    Note* made = note(kind, label, rect, item.id);
    if (made) {
        made->enabled = item.enabled;
        made->focused = item.focused;
        made->hovered = item.hovered;
    }
    return made;
}

void tip_for(bool hovered, std::string_view words) {
    if (!hovered || words.empty())
        return;
    const ImVec2 pad{quarters(2), quarters(1)};
    const ImVec2 size = measure(words, {}, px(Length{24}));
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    ImVec2 at = mouse + ImVec2(em(), em());
    at.x = std::min(at.x, state().setup.width - size.x - 2 * pad.x);
    if (at.y + size.y + 2 * pad.y > state().setup.height)
        at.y = mouse.y - size.y - 2 * pad.y - em() / 2;
    ImDrawList& over = *ImGui::GetForegroundDrawList();
    over.AddRectFilled(at, at + size + pad * 2, tint(Role::ink), corner());
    const Typeface face = state().fonts.face(TextSize::text, Weight::regular);
    ImVec2 pen = at + pad;
    for (const std::string_view one : lines_of(words, face, px(Length{24}))) {
        if (!one.empty())
            over.AddText(face.font, face.size, pen, tint(Role::panel), begin_of(one), end_of(one));
        pen.y += face.size;
    }
}

} // namespace mellowbin::ui::inner
