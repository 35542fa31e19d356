#pragma once

#include "core/day.h"

#include <string>

namespace mellowbin::app {

struct Station;

/// Whose paper it is and when it was made.
struct PaperHead {
    std::string plant; ///< may be empty
    std::string made;  ///< "Wed 25 Nov 2026, 04:10 by Ines"
    Instant at;
};
PaperHead make_paper_head(const Station& station);

} // namespace mellowbin::app
