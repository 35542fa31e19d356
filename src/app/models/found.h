#pragma once

#include "core/id.h"

#include <string>
#include <vector>

namespace mellowbin::app {

/// One of the things that a search may have meant.
struct FoundOne {
    LotId lot; ///< or
    RunId run;
    std::string name;    ///< "W24-118", "R261125-1-1"
    std::string details; ///< what tells it from the others: "Harrow Mill, Strong white, released, 4 500 kg"
};

/// What a search found where it found more than one: a person says which.
struct Found {
    std::string words; ///< that were searched for
    std::vector<FoundOne> all;
    bool are_more = false; ///< than are told
};

} // namespace mellowbin::app
