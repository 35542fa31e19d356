#pragma once

#include "app/book/settings.h"
#include "exchange/scan.h"
#include "exchange/test_scan.h"

#include <span>
#include <string>

namespace mellowbin::app {

/// How the plant says that its scanners are set.
inline exchange::ScannerSetup scanner_setup(std::span<const Setting> stored) {
    return {Choices(stored).words("scanner_separator")};
}

/// Seconds up to which keys are a scanner's.
inline double longest_scanner_gap(std::span<const Setting> stored) {
    constexpr double milliseconds = 1000;
    return Choices(stored).number("scanner_gap") / milliseconds;
}

/// The port at which a scanner sends whole lines, beside those that type.
struct ScannerPort {
    std::string path; ///< "/dev/ttyACM0"; empty: none
    int baud = 9600;  ///< bits a second
    friend bool operator==(const ScannerPort&, const ScannerPort&) = default;
};
inline ScannerPort scanner_port(std::span<const Setting> stored) {
    return {Choices(stored).words("scanner_port"), std::stoi(Choices(stored).words("scanner_port_speed"))};
}

} // namespace mellowbin::app
