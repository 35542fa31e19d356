#pragma once

#include "ui/widgets/theme.h"

#include <chrono>
#include <string>

namespace mellowbin::app {
class App;
}

namespace mellowbin::ui {

/// How the program's window is opened.
struct Opening {
    std::string shot;   ///< draw into this PNG file and leave; empty: for people
    std::string screen; ///< "Intake", "Lots", …; empty: the first
    Palette palette = Palette::light;
    float text_size = 1; ///< 1 to 2
    int width = 1280;
    int height = 800;
    std::chrono::steady_clock::time_point started =
        std::chrono::steady_clock::now(); ///< when the program was
};

/// The screens over the application in a real window, until it is closed; with `shot`, says on standard
/// output how long after the program's start the first frame was there. Gives the exit code; throws
/// std::runtime_error with a sentence when there is no display, no such screen, or the picture cannot be
/// written.
int open_window(app::App& app, const Opening& opening);

} // namespace mellowbin::ui
