#pragma once

#include "ui/shell/scan_reader.h"
#include "ui/widgets/frame.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::ui {

enum class Shown { yes, no };

struct WindowSetup {
    std::string title;
    int width = 1280; ///< at 96 dpi
    int height = 800;
    Shown shown = Shown::yes; ///< no: for pictures only
    float text_size = 1;      ///< the person's, 1.0 to 2.0
    Palette palette = Palette::light;
    Probing probing = Probing::off; ///< on: things can be found by their words, see press()
};

/// The window on the screen. Throws std::runtime_error with a sentence for the person when there is no
/// display or no OpenGL 3. One at a time, on the main thread.
class Window {
public:
    explicit Window(const WindowSetup& setup);
    ~Window();
    Window(const Window&) = delete;
    Window& operator=(const Window&) = delete;

    Frame& frame();
    /// Paths of the files that were dropped on the window since it was asked last.
    std::vector<std::string> take_dropped();
    /// What a scanner typed since it was asked last; no field and no shortcut got it.
    std::vector<CaughtScan> take_scans();
    /// Seconds between the keys of a scanner at most; see ScanReader.
    void set_longest_scanner_gap(double seconds);
    /// The next frame comes now; from any thread.
    static void wake();

    /// Draws until the window is closed: after each input, and every half second for the clock and for work
    /// in the background. `draw` is called once or more for what is then shown once, so that a picture is
    /// never half settled.
    /// `after` is called after each frame, for work that draws pictures of its own.
    void run(const std::function<void()>& draw, const std::function<void()>& after = {});
    /// Draws one picture now, for work that holds up run(); the window is shown with it.
    void picture(const std::function<void()>& draw);
    void set_title(const std::string& title);
    /// Ends run() after the frame being drawn.
    void close();
    /// Is asked when the person closes the window: where it says no, the window stays, and the next frame
    /// says why.
    void ask_before_closing(std::function<bool()> may_close);
    /// The next frame comes in so many seconds at the latest, whatever happens.
    void look_in_again(double seconds);
    /// Presses the thing with these words, as a person would: a row, a button, a page; of two the first, one
    /// in a dialog before those behind it. Needs probing. Throws std::runtime_error where nothing says so.
    void press(std::string_view words, const std::function<void()>& draw);
    /// Draws `frames` frames, and as many more as need to settle, and writes what is then seen as a PNG.
    /// Throws std::runtime_error if the file cannot be written.
    void shot(const std::filesystem::path& png, const std::function<void()>& draw, int frames = 5);
    /// Seconds from the making of this window to its first picture; 0 before it.
    double seconds_to_first_picture() const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace mellowbin::ui
