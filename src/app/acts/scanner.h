#pragma once

#include "app/acts/act.h"
#include "exchange/test_scan.h"

#include <string>

/// How the scanner at this station is set; nothing of it is in the book.
namespace mellowbin::app {

/// A scan as it came, whole.
using Scanned = exchange::Arrival;

/// A scan of a test symbol: it says how the scanner is set, a line each.
struct JudgeTestScan {
    Scanned scan;
};
/// How the scanner's port stands.
struct TellOfPort {
    std::string words; ///< "listening at /dev/ttyACM0"; empty: no port is set
    bool is_well = true;
    bool is_news = false; ///< also told on the line of what was done: it was unplugged, or is there again
};

Result<Told> carry_out(State& state, const JudgeTestScan& act);
Result<Told> carry_out(State& state, const TellOfPort& act);

} // namespace mellowbin::app
