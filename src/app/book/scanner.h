#pragma once

#include "app/book/settings.h"
#include "exchange/scan.h"

#include <span>

namespace mellowbin::app {

/// How the plant says that its scanners are set.
inline exchange::ScannerSetup scanner_setup(std::span<const Setting> stored) {
    return {Choices(stored).words("scanner_separator")};
}

} // namespace mellowbin::app
