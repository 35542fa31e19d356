#pragma once

#include "core/climate.h"

#include <cstddef>
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

/// A line of a logger's file that gave no reading, or one without its humidity.
struct LineSetAside {
    std::size_t line = 0; ///< of the file, from 1
    std::string what;     ///< the column and what was read in it
    std::string why;
};
/// The logger's file that was read last: what of it does not count.
struct LogRead {
    std::string file, place;
    std::vector<LineSetAside> set_aside; ///< by line; of a file with very many the first
    std::size_t set_aside_in_all = 0;
    std::vector<std::string> notes; ///< columns not read, lines that repeat others, hours that clocks repeat
    ClimateLogId log = {};
};
/// "12 lines set aside", "The first 10000 of 12345 lines set aside"; empty: none.
std::string set_aside_head(const LogRead& read);

struct Station;

std::vector<PlaceRow> make_storage(const Station& station);

} // namespace mellowbin::app
