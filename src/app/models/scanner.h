#pragma once

#include "app/book/scanner.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// What the scanner at this station showed of itself.
struct ScannerHeard {
    std::vector<exchange::TestLine> lines; ///< of the last scan of a test symbol
    std::uint64_t judged = 0;              ///< counts them
    /// What should be set as sent in place of the separator, empty: itself; nothing: it is set so.
    std::optional<std::string> separator;
    std::string port_words; ///< how the port stands: "listening at /dev/ttyACM0"; empty: nobody listens
    bool port_is_well = true;
};

struct ScannerModel {
    ScannerHeard heard;
    std::string separator;  ///< that is set; empty: itself
    double longest_gap = 0; ///< seconds, of keys
    ScannerPort port;       ///< that is set
};

struct Station;
ScannerModel make_scanner(const Station& station, const ScannerHeard& heard);

} // namespace mellowbin::app
