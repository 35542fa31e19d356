#pragma once

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {
struct AppSetup;
}

namespace mellowbin::cli {

/// What the command `window` asks of the window.
struct WindowWish {
    std::string shot;              ///< draw the screen into this PNG file and leave; empty: open for people
    std::string screen;            ///< "Intake", "Lots", …; empty: the first
    std::vector<std::string> open; ///< words of what is pressed, one after another, before the picture
    bool is_dark = false;
    double text_size = 1; ///< 1 to 2
    int width = 1280, height = 720;
};

/// The world outside, as the command line needs it; tests bring their own.
struct World {
    std::ostream& out;
    std::ostream& err;
    std::string home;      ///< the person's folder, for the default book
    std::string data_home; ///< $XDG_DATA_HOME, or empty
    std::string person;    ///< who is at the keyboard
    /// Opens the window on the book that is set up; empty where the program was built without one. Gives the
    /// exit code.
    std::function<int(const app::AppSetup&, const WindowWish&)> open_window;
    std::istream* in = nullptr; ///< what is typed or piped in; null: nothing
};

/// Exit codes: 0 done, 1 refused or failed (the reasons are on stderr), 2 the words of the command are off.
inline constexpr int done = 0;
inline constexpr int not_done = 1;
inline constexpr int bad_usage = 2;

/// Runs one command; `words` without the program's name.
int run(const std::vector<std::string>& words, World& world);

} // namespace mellowbin::cli
