#pragma once

#include <string>

namespace mellowbin::app {

/// Where there is no plant yet: what a person may begin with.
struct WelcomeModel {
    std::string book; ///< path of the person's own
    std::string demo; ///< path of the demo's, beside it
    bool has_book = false;
    bool has_demo = false;
    std::string
        trouble; ///< why what was asked for last was not done, or the book was not opened; empty: none
};

} // namespace mellowbin::app
