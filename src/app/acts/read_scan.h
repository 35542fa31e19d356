#pragma once

#include "app/acts/act.h"
#include "app/acts/intake.h"
#include "app/acts/scan_memory.h"
#include "core/id.h"

#include <string>

/// A scan, wherever it was made.
namespace mellowbin::app {

/// What a scanner sent, or a person typed in its place, is read, and goes where it was scanned: a label fills
/// the lot at hand on Intake (ReadLabel), a bag is held against the card on Mixer (ScanBag), and anywhere
/// else the lot is found and opened (Search). One that is scanned twice within a few seconds is told.
struct ReadScan {
    enum class At {
        anywhere,
        intake,
        mixer,
        behind_a_question, ///< which must be answered first: nothing is read
    };
    std::string scan;
    At at = At::anywhere;
    RunId run = {}; ///< at the mixer: whose card is shown
    ReadLabel::Reading reading = ReadLabel::Reading::asked;
    ReadLabel::Plain plain = ReadLabel::Plain::asked_about;
};

Result<Told> carry_out(State& state, const ReadScan& act);

} // namespace mellowbin::app
