#pragma once

#include "app/acts/intent.h"
#include "app/models/scanner.h"

#include <string>

namespace mellowbin::views {

/// A symbol to be scanned once, what that scan says of the scanner, and how its port stands.
struct ScannerPage {
    int symbol = 0;    ///< of the test symbols
    std::string typed; ///< by a scanner that is too slow to be told from a person
};

/// True where the person wants to see the plant's choices.
bool draw(ScannerPage& page, const app::ScannerModel& model, app::Intents& out);

} // namespace mellowbin::views
