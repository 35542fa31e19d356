#pragma once

#include "terminal.h"
#include "typing_person.h"

#include <memory>
#include <string>

namespace mellowbin::tests {

/// A book of the demo, a folder where work is kept, and a window on them on a display of its own.
struct WindowOnDisplay {
    Terminal terminal;
    std::unique_ptr<Display> display = Display::open(); ///< null where the machine has no Xvfb
    std::string state = terminal.file("state");

    WindowOnDisplay();

    [[nodiscard]] std::unique_ptr<StartedProgram> start() const;
    /// A window that takes what is typed: its book may take a while to open. A first lot "z" is then scanned.
    [[nodiscard]] std::unique_ptr<StartedProgram> start_and_wait() const;
    [[nodiscard]] bool is_something_kept() const;
};

} // namespace mellowbin::tests
