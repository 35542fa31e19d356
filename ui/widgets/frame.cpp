#include "ui/widgets/frame.h"

#include "core/promised.h"
#include "ui/widgets/inner.h"

#include <algorithm>
#include <utility>

namespace mellowbin::ui {

void begin_focus(Frame::State& state); // focus.cpp
void end_focus(Frame::State& state);
void map_keys(); // input.cpp
void hand_on_events(Frame::State& state);

namespace {

Frame* drawing = nullptr;

void calm_style(float scale) {
    ImGuiStyle style;
    style.WindowPadding = style.FramePadding = style.CellPadding = style.ItemSpacing = {0, 0};
    style.WindowRounding = style.ChildRounding = style.PopupRounding = 5;
    style.WindowBorderSize = style.ChildBorderSize = style.PopupBorderSize = style.FrameBorderSize = 0;
    style.ScrollbarSize = 12;
    style.ScrollbarRounding = 6;
    style.GrabMinSize = 32;
    style.DisabledAlpha = 1;
    style.ScaleAllSizes(scale);
    ImVec4* const colours = style.Colors;
    const auto set = [&](ImGuiCol_ what, ImU32 c) { colours[what] = ImGui::ColorConvertU32ToFloat4(c); };
    const ImU32 none = 0;
    for (int i = 0; i < ImGuiCol_COUNT; ++i)
        colours[i] = ImVec4(0, 0, 0, 0);
    set(ImGuiCol_Text, inner::tint(Role::ink));
    set(ImGuiCol_TextDisabled, inner::tint(Role::quiet));
    set(ImGuiCol_TextSelectedBg, inner::tint(Role::accent, 0.25f));
    set(ImGuiCol_WindowBg, inner::tint(Role::ground));
    set(ImGuiCol_PopupBg, inner::tint(Role::panel));
    set(ImGuiCol_ScrollbarBg, none);
    set(ImGuiCol_ScrollbarGrab, inner::mix(Role::panel, Role::quiet, 0.35f));
    set(ImGuiCol_ScrollbarGrabHovered, inner::mix(Role::panel, Role::quiet, 0.55f));
    set(ImGuiCol_ScrollbarGrabActive, inner::mix(Role::panel, Role::quiet, 0.75f));
    set(ImGuiCol_ModalWindowDimBg, IM_COL32(20, 17, 13, 110));
    ImGui::GetStyle() = style;
}

} // namespace

Frame::Frame(const FrameSetup& setup) : state_(std::make_unique<State>()) {
    promised(!drawing && "one frame at a time");
    drawing = this;
    state_->setup = setup;
    state_->setup.text_size = std::clamp(setup.text_size, 1.0f, 2.0f);
    state_->context = ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.LogFilename = nullptr;
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    io.ConfigWindowsMoveFromTitleBarOnly = true;
    io.Fonts->SetTexID(ImTextureID(1));
    map_keys();
    set_clipboard([](void* own, const char* text) { *static_cast<std::string*>(own) = text; },
                  [](void* own) { return static_cast<const std::string*>(own)->c_str(); },
                  &state_->clipboard);
}

Frame::~Frame() {
    ImGui::DestroyContext(state_->context);
    drawing = nullptr;
}

Frame& Frame::current() {
    promised(drawing);
    return *drawing;
}

namespace {

void refresh_fonts(Frame::State& s) {
    ImGuiIO& io = ImGui::GetIO();
    const float scale = s.setup.content_scale * s.setup.text_size;
    if (!s.fonts.refresh(*io.Fonts, scale, inner::growth(s.setup)))
        return;
    s.font_changed = true;
    if (scale != s.styled_for) {
        s.remembered.clear(); // widths of words at the scale before
        s.styled_for = scale;
        calm_style(scale);
    }
    io.FontDefault = s.fonts.face(TextSize::text, Weight::regular).font;
}

} // namespace

bool Frame::take_font_change() {
    refresh_fonts(*state_);
    return std::exchange(state_->font_changed, false);
}

void Frame::begin() {
    State& s = *state_;
    ImGuiIO& io = ImGui::GetIO();
    refresh_fonts(s);
    io.DisplaySize = {s.setup.width, s.setup.height};
    io.DeltaTime = std::max(s.elapsed, 0.0001f);
    if (s.quiet_frames > 0)
        --s.quiet_frames;
    if (!s.events.empty())
        s.quiet_frames = 2;
    hand_on_events(s);
    s.cursor = Cursor::arrow;
    s.is_moving = false;
    s.asked = std::exchange(s.asks, false);
    s.clear_below = 0;
    s.probe.start_frame();
    begin_focus(s);
    ImGui::NewFrame();
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(io.DisplaySize);
    ImGui::Begin("##screen", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollWithMouse);
    s.layer = s.layers_drawn = 0;
    inner::push_place(Place::Kind::stack, 0, s.setup.width);
}

void Frame::end() {
    State& s = *state_;
    inner::pop_place();
    promised(s.places.empty());
    ImGui::End();
    end_focus(s);
    ImGui::Render();
    s.probe.finish_frame();
}

ImDrawData* Frame::draw_data() const { return ImGui::GetDrawData(); }

void Frame::pointer_moved(float x, float y) { state_->events.push_back({Event::What::move, x, y}); }
void Frame::pointer_left() { state_->events.push_back({Event::What::leave}); }
void Frame::pointer_pressed() { state_->events.push_back({Event::What::press}); }
void Frame::pointer_released() { state_->events.push_back({Event::What::release}); }
void Frame::wheel_turned(float lines_up, Mods mods) {
    state_->events.push_back({Event::What::wheel, 0, lines_up, {}, Key::tab, mods});
}
void Frame::typed(std::string_view utf8) {
    auto& events = state_->events;
    // A window tells of the key before its character. The character belongs to what has the focus now; the
    // key may move it (Space opens a dialog with a field), so the character goes first.
    const bool key_first = !events.empty() && events.back().what == Event::What::key &&
                           (events.back().key == Key::space || events.back().key >= Key::plus);
    events.insert(key_first ? events.end() - 1 : events.end(), {Event::What::text, 0, 0, std::string(utf8)});
}
void Frame::pressed(Key key, Mods mods) { state_->events.push_back({Event::What::key, 0, 0, {}, key, mods}); }

bool Frame::wants_another() const {
    return !state_->events.empty() || state_->quiet_frames > 0 || state_->fonts.is_waiting();
}

double Frame::patience() const { return state_->is_moving ? 0.1 : 0.5; }

void Frame::resize(float width, float height) {
    if (width == state_->setup.width && height == state_->setup.height)
        return;
    state_->setup.width = width;
    state_->setup.height = height;
    state_->quiet_frames = 3;
}
void Frame::set_content_scale(float scale) {
    if (scale == state_->setup.content_scale)
        return;
    state_->setup.content_scale = scale;
    state_->quiet_frames = 3;
}
void Frame::set_text_size(float text_size) {
    state_->setup.text_size = std::clamp(text_size, 1.0f, 2.0f);
    state_->quiet_frames = 3;
}

void Frame::set_elapsed(float seconds) { state_->elapsed = seconds; }

float Frame::width() const { return state_->setup.width; }
float Frame::height() const { return state_->setup.height; }
float Frame::text_size() const { return state_->setup.text_size; }
Palette Frame::palette() const { return state_->setup.palette; }
const Probe& Frame::probe() const { return state_->probe; }
void Frame::scroll_to(std::uint32_t id) { state_->bring = id; }
std::uint32_t Frame::hovered() const {
    const ImGuiContext& g = *state_->context;
    return g.HoveredId != 0 ? g.HoveredId : g.HoveredIdPreviousFrame;
}
Frame::Cursor Frame::cursor() const {
    return ImGui::GetMouseCursor() == ImGuiMouseCursor_TextInput ? Cursor::text : state_->cursor;
}

bool Frame::can_show(std::string_view utf8) const {
    for (std::string_view rest = utf8; !rest.empty();) {
        const char32_t c = next_code_point(rest);
        if (c != U'\n' && c != U'\t' && !state_->fonts.can_show(c))
            return false;
    }
    return true;
}

void Frame::set_clipboard(void (*set)(void*, const char*), const char* (*get)(void*), void* window) {
    ImGuiIO& io = ImGui::GetIO();
    io.SetClipboardTextFn = set;
    io.GetClipboardTextFn = get;
    io.ClipboardUserData = window;
}

float seconds_since_last_frame() { return Frame::current().state().elapsed; }

void copy_to_clipboard(std::string_view text) { ImGui::SetClipboardText(std::string(text).c_str()); }

} // namespace mellowbin::ui
