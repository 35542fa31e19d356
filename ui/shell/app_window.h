#pragma once

#include "ui/widgets/theme.h"

#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

namespace mellowbin::app {
struct AppSetup;
}

namespace mellowbin::ui {

/// How the program's window is opened.
struct Opening {
    std::string shot;              ///< draw into this PNG file and leave; empty: for people
    std::string screen;            ///< "Intake", "Lots", …; empty: the first
    std::vector<std::string> open; ///< words of what is pressed, one after another, before a picture
    Palette palette = Palette::light;
    float text_size = 1; ///< 1 to 2
    int width = 1280;
    int height = 800;
    std::chrono::steady_clock::time_point started =
        std::chrono::steady_clock::now(); ///< when the program was
    std::filesystem::path state = {};     ///< where work begun is kept; empty: as app::state_folder() says
};

/// The screens over the application on the book that is set up, in a real window, until it is closed or the
/// program is told to end; what is typed is kept. Where there is no book, or nothing in it, a person is asked
/// first how to begin. The window shows how far an older book is brought to its present form. With `shot`,
/// says on standard output how long after the program's start the first frame was there. Gives the exit code;
/// throws std::runtime_error with a sentence when there is no display, no such screen, nothing to press with
/// the words of `open`, or the picture cannot be written.
int open_window(const app::AppSetup& setup, const Opening& opening);

} // namespace mellowbin::ui
