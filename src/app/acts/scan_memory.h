#pragma once

#include "core/day.h"
#include "exchange/element_string.h"

#include <cstdint>
#include <string>
#include <vector>

namespace mellowbin::app {

/// What was scanned lately at this station: a label may be split over two symbols, and a pallet scanned
/// twice.
struct ScanMemory {
    std::string last; ///< bytes of the scan that was read last
    Instant last_at;
    exchange::Elements half; ///< of a symbol that may have another beside it
    Instant half_at;
    std::vector<std::string> pallets; ///< SSCCs that were read since a delivery was taken in last
    std::uint64_t deliveries = 0;     ///< taken in by then
};

} // namespace mellowbin::app
