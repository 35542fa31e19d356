#pragma once

#include "ui/widgets/probe.h"
#include "ui/widgets/theme.h"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

struct ImDrawData;

namespace mellowbin::ui {

/// Keys a screen or a widget asks about. `letter` keys arrive as typed text instead.
enum class Key {
    tab,
    enter,
    escape,
    space,
    backspace,
    del,
    left,
    right,
    up,
    down,
    page_up,
    page_down,
    home,
    end,
    f1,
    f2,
    f3,
    f4,
    f5,
    f6,
    f7,
    f8,
    f9,
    f10,
    f11,
    f12,
    digit_1,
    digit_2,
    digit_3,
    digit_4,
    digit_5,
    digit_6,
    digit_7,
    digit_8,
    digit_9,
    a,
    c,
    f,
    v,
    x,
    y,
    z,
    plus,
    minus,
    zero,
};

enum class Mods : std::uint8_t { none = 0, ctrl = 1, shift = 2, ctrl_shift = 3 };
constexpr bool has(Mods all, Mods one) {
    return (static_cast<unsigned>(all) & static_cast<unsigned>(one)) != 0;
}

enum class Probing { off, on };

/// How a window is set up, or a test's screen without one.
struct FrameSetup {
    float width = 1280; ///< pixels
    float height = 720;
    float content_scale = 1; ///< of the monitor: 1 at 96 dpi
    float text_size = 1;     ///< the person's, 1.0 to 2.0
    Palette palette = Palette::light;
    Probing probing = Probing::off;
};

/// The one place where Dear ImGui's context lives. Headless by itself: a test makes one, feeds it events and
/// draws; the shell makes one, feeds it GLFW's events and hands draw_data() to OpenGL. At most one at a time;
/// one thread.
///
/// Events are queued in the order they came and handed on at most one press a frame: a scanner that sends
/// twelve characters and Enter within a millisecond loses none of them, and a key pressed and let go between
/// two frames counts.
class Frame {
public:
    explicit Frame(const FrameSetup& setup = {});
    ~Frame();
    Frame(const Frame&) = delete;
    Frame& operator=(const Frame&) = delete;

    /// The frame being drawn or last drawn. Widgets draw into it.
    static Frame& current();

    void begin();
    void end();
    /// After end(): valid until the next begin().
    ImDrawData* draw_data() const;

    // What happened outside, in order. Pixels from the window's upper left corner.
    void pointer_moved(float x, float y);
    void pointer_left();
    void pointer_pressed();
    void pointer_released();
    /// With Shift, sideways.
    void wheel_turned(float lines_up, Mods mods = Mods::none);
    void typed(std::string_view utf8);
    void pressed(Key key, Mods mods = Mods::none);
    /// Events still queued, or something asked for one more frame: draw again before waiting.
    bool wants_another() const;

    /// How long the shell may wait for the next event before it draws again, in seconds.
    double patience() const;

    void resize(float width, float height);
    void set_content_scale(float scale);
    void set_text_size(float text_size); ///< kept within 1.0 and 2.0
    /// Seconds since the frame before, for the caret and for held keys; headless frames take 1/60.
    void set_elapsed(float seconds);

    float width() const;
    float height() const;
    float text_size() const;
    Palette palette() const;

    /// Before begin(): builds the sizes and characters the frames before asked for. True if the font picture
    /// is another than at the last call: the shell must upload it now, because the frame to come draws with
    /// it.
    bool take_font_change();
    const Probe& probe() const;
    /// Whether every character of the words has a glyph in a font of this machine.
    bool can_show(std::string_view utf8) const;
    /// Brings an item of the last frame into view in its scroll areas (as Tab does).
    void scroll_to(std::uint32_t id);
    /// The item under the pointer; 0 for none.
    std::uint32_t hovered() const;
    /// Where the copy of text goes and comes from; headless frames keep their own clipboard.
    void set_clipboard(void (*set)(void*, const char*), const char* (*get)(void*), void* window);
    /// The pointer's shape that the item under it asks for.
    enum class Cursor { arrow, text, hand, sideways };
    Cursor cursor() const;

    struct State;
    State& state() { return *state_; }
    const State& state() const { return *state_; }

private:
    std::unique_ptr<State> state_;
};

/// Was the key pressed, and not used by the item that has the focus? For shortcuts of a screen. Digits and
/// letters only with Ctrl: alone they are typed text.
bool key_pressed(Key key, Mods mods = Mods::none);

/// Gives the focus to the first empty field drawn from now on in this frame; if all are filled, to the first.
/// Call it before the form's fields, in the frame in which the form opens or was emptied.
void focus_first_empty_field();
/// Gives the focus to the item of this label within the place being drawn, when it is drawn next.
void focus(std::string_view label);

/// Seconds since the frame before.
float seconds_since_last_frame();

void copy_to_clipboard(std::string_view text);

} // namespace mellowbin::ui
