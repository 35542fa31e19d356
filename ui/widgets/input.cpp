#include "ui/widgets/field.h"
#include "ui/widgets/inner.h"

#include <algorithm>
#include <array>
#include <cfloat>
#include <utility>

namespace mellowbin::ui {

void map_keys(); // used by frame.cpp
void hand_on_events(Frame::State& state);

namespace {

/// The keys that Dear ImGui's text fields know themselves. Tab, Enter, Escape and Space are ours: Tab must
/// reach buttons, Escape must not throw away what was typed.
struct FieldKey {
    Key key;
    ImGuiKey_ field_key;
};
constexpr std::array field_keys{
    FieldKey{Key::left, ImGuiKey_LeftArrow},
    FieldKey{Key::right, ImGuiKey_RightArrow},
    FieldKey{Key::up, ImGuiKey_UpArrow},
    FieldKey{Key::down, ImGuiKey_DownArrow},
    FieldKey{Key::home, ImGuiKey_Home},
    FieldKey{Key::end, ImGuiKey_End},
    FieldKey{Key::del, ImGuiKey_Delete},
    FieldKey{Key::backspace, ImGuiKey_Backspace},
    FieldKey{Key::a, ImGuiKey_A},
    FieldKey{Key::c, ImGuiKey_C},
    FieldKey{Key::v, ImGuiKey_V},
    FieldKey{Key::x, ImGuiKey_X},
    FieldKey{Key::y, ImGuiKey_Y},
    FieldKey{Key::z, ImGuiKey_Z},
};

enum class Next { take, wait };

/// Somebody catches what is typed, and no field is being typed into or about to be.
bool is_caught(const Frame::State& s) {
    const bool typing = s.activate != 0 || (s.focus_is_field && s.context->ActiveId != 0);
    return s.catches && s.catching_layer == s.top_layer && !typing;
}

/// A key of a line that is being caught: Enter ends it, Space is in it as text, Escape drops it.
bool take_caught_key(Frame::State& s, Key key) {
    if (s.caught.empty() || !is_caught(s))
        return false;
    if (key == Key::enter)
        s.caught_is_whole = true;
    if (key == Key::escape)
        s.caught.clear();
    return key == Key::enter || key == Key::space || key == Key::escape;
}

/// Hands one event on; `wait` leaves it for the next frame.
Next hand_on(Frame::State& s, const Event& event, bool& typed, bool& clicked) {
    ImGuiIO& io = ImGui::GetIO();
    switch (event.what) {
    case Event::What::move:
        if (clicked)
            return Next::wait; // the press belongs to where the pointer was
        io.MousePos = {event.x, event.y};
        return Next::take;
    case Event::What::leave:
        io.MousePos = {-FLT_MAX, -FLT_MAX};
        return Next::take;
    case Event::What::press:
    case Event::What::release:
        if (clicked)
            return Next::wait;
        io.MouseDown[0] = event.what == Event::What::press;
        s.focus_by_key = false;
        clicked = true;
        return Next::take;
    case Event::What::wheel:
        io.MouseWheel += event.y;
        s.wheel += event.y;
        s.mods = event.mods;
        io.KeyCtrl = has(event.mods, Mods::ctrl);
        io.KeyShift = has(event.mods, Mods::shift); // Dear ImGui then scrolls sideways
        return Next::take;
    case Event::What::text:
        if (is_caught(s)) {
            s.caught += event.text;
            s.was_caught = typed = true;
            s.fonts.want(event.text, TextSize::text);
            return Next::take;
        }
        io.AddInputCharactersUTF8(event.text.c_str());
        s.fonts.want(event.text, TextSize::text);
        typed = true;
        return Next::take;
    case Event::What::key:
        if (typed || s.key)
            return Next::wait; // what was typed before the key is read before it
        if (take_caught_key(s, event.key))
            return Next::take;
        s.key = event.key;
        s.mods = event.mods;
        io.KeysDown[static_cast<int>(event.key) + 1] = true;
        io.KeyCtrl = has(event.mods, Mods::ctrl);
        io.KeyShift = has(event.mods, Mods::shift);
        return Next::take;
    }
    return Next::take;
}

} // namespace

Edited catch_typing(std::string& text) {
    Frame::State& s = inner::state();
    if (s.layer == s.top_layer) {
        s.wants_caught = true;
        s.catching_layer = s.layer;
    }
    if (!s.catches || s.layer != s.catching_layer)
        return {};
    if (s.was_caught)
        text = s.caught;
    return {s.was_caught, s.caught_is_whole, false};
}

void map_keys() {
    ImGuiIO& io = ImGui::GetIO();
    std::fill(std::begin(io.KeyMap), std::end(io.KeyMap), -1);
    for (const FieldKey& k : field_keys)
        io.KeyMap[k.field_key] = static_cast<int>(k.key) + 1;
}

void hand_on_events(Frame::State& s) {
    ImGuiIO& io = ImGui::GetIO();
    std::fill(std::begin(io.KeysDown), std::end(io.KeysDown), false);
    io.KeyCtrl = io.KeyShift = false;
    const bool let_key_go = s.key.has_value(); // a key must be up for a frame before it can go down again
    s.key.reset();
    s.mods = Mods::none;
    s.key_used = s.wheel_used = false;
    s.wheel = 0;
    s.catches = std::exchange(s.wants_caught, false);
    if (std::exchange(s.caught_is_whole, false) || !s.catches)
        s.caught.clear();
    s.was_caught = false;
    bool typed = false, clicked = false;
    while (!s.events.empty()) {
        const Event& event = s.events.front();
        if (let_key_go && (event.what == Event::What::key || event.what == Event::What::text))
            break;
        if (s.key && event.what != Event::What::move)
            break;
        if (hand_on(s, event, typed, clicked) == Next::wait)
            break;
        s.events.pop_front();
    }
}

} // namespace mellowbin::ui
