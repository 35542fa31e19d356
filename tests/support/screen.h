#pragma once

#include "ui/widgets/frame.h"

#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace mellowbin::testing {

/// What a person looked for is not there, is there twice, or cannot be reached. Carries all words on the
/// screen.
struct NotOnScreen : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A screen without a window, used as a person uses it: finds things by the words on them, moves the pointer
/// there and presses, types, presses keys. What stands in a dialog counts before what is behind it.
///
///     Screen screen([&] { draw(view, model, intents); });
///     screen.type("Lot code", "W24-118");
///     screen.click("Save lot");
///     CHECK(screen.says("Lot W24-118 saved"));
///
/// A thing is named by its words, or by the end of its path if the words are there twice: "Lot at
/// hand/Moisture".
class Screen {
public:
    explicit Screen(std::function<void()> draw, ui::FrameSetup setup = {});

    /// Draws until nothing is waiting, at least three frames.
    void settle();
    void frame() { draw_one(); }

    /// Moves to the thing (scrolling to it if need be), looks that nothing covers it, presses and lets go. A
    /// thing that is blocked can be clicked as well: it must then do nothing.
    void click(std::string_view words);
    void double_click(std::string_view words);
    /// Clicks the field and types over what stands in it.
    void type(std::string_view field, std::string_view text);
    /// Types into whatever has the focus, as a scanner does.
    void type(std::string_view text);
    void press(ui::Key key, ui::Mods mods = ui::Mods::none);
    void point_at(std::string_view words);
    void point_at(float x, float y);
    /// Presses at the thing, moves by pixels, lets go.
    void drag(std::string_view words, float by_x, float by_y);
    void turn_wheel(std::string_view over, float lines_up, ui::Mods mods = ui::Mods::none);
    void resize(float width, float height);
    void text_size(float size);

    /// Is it to be read somewhere (as part of a line, a value, a refusal)? Only what is in view counts.
    bool says(std::string_view words) const;
    /// Is there a thing to press or type into with exactly these words, in view or to be scrolled to?
    bool offers(std::string_view words) const;
    std::string words() const;
    std::string value_of(std::string_view words) const; ///< of a field, a choice, a figure, a row
    std::string field_value(std::string_view field) const { return value_of(field); }
    bool is_enabled(std::string_view words) const;
    bool is_chosen(std::string_view words) const; ///< ticked, selected, the current tab
    bool is_focused(std::string_view words) const;
    std::string focused() const; ///< words of what has the focus; empty: nothing
    /// The note itself, for rectangles and the like. Throws NotOnScreen.
    const ui::Note& find(std::string_view words) const;
    const ui::Probe& probe() const { return frame_.probe(); }
    ui::Frame& ui() { return frame_; }

private:
    void draw_one();
    const ui::Note& find_to_press(std::string_view words);
    [[noreturn]] void fail(std::string_view what, std::string_view words) const;

    ui::Frame frame_;
    std::function<void()> draw_;
};

} // namespace mellowbin::testing
