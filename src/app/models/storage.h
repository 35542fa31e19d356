#pragma once

#include "core/climate.h"

#include <string>
#include <vector>

namespace mellowbin::app {

struct ClimateLogRow {
    ClimateLogId id;
    std::string file, words, who;
    bool is_withdrawn = false;
};

/// A place and what is known of its climate.
struct PlaceRow {
    PlaceId id;
    std::string name, assumed; ///< assumed: "18 °C, 60 %", where no logger says
    std::string measured;      ///< "3 Jun to 24 Nov: 4 104 readings, 2 gaps, longest 31 h"; empty: no log
    std::vector<ClimateLogRow> logs; ///< newest first
};

struct Station;

std::vector<PlaceRow> make_storage(const Station& station);

} // namespace mellowbin::app
