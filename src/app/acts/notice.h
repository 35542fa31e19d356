#pragma once

#include "app/acts/intent.h"
#include "core/result.h"

#include <cstdint>
#include <string>

namespace mellowbin::app {

/// What came of the last intent.
struct Notice {
    enum class Kind { none, done, refused, failed };
    Kind kind = Kind::none;
    std::string words;   ///< one line: "Lot W24-118 taken in"
    Refusals refusals;   ///< of a refused intent; each names its field
    std::string meaning; ///< of a failure: what it means for what was entered
    std::string remedy;  ///< of a failure: what to do now
    std::string details; ///< of a failure: for the one who mends it
    std::string undo;    ///< the button's words; empty: nothing to undo
    Intents undoing;     ///< what the button does
    std::string screen;  ///< the screen that shows it, where the person should be taken there: "Lots"
    std::string
        document; ///< a file that was written to be looked at; the window shows it in the system's viewer
    std::uint64_t number = 0; ///< counts up, so that a view sees a new one
};

} // namespace mellowbin::app
