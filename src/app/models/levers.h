#pragma once

#include "core/plant.h"
#include "core/result.h"

#include <string>
#include <vector>

namespace mellowbin::app {

/// One way to close the gap between a run's flour and the strength its product asks for.
struct LeverRow {
    enum class Standing { reaches, helps, not_needed, forbidden, not_known };
    std::string name; ///< "Wait", "Blend", "Oxidant", "Longer fermentation", "Water"
    Standing standing{};
    std::string figures; ///< "W24-118 alone is ready on Tue 1 Dec, 80 % sure"
    std::string spread;  ///< how sure that is
    std::string time, money, label;
    std::vector<std::string> notes; ///< why forbidden, cautions, assumptions
};

/// Levers pulled together, the cheapest first.
struct LeverMix {
    std::string words;    ///< "20 % of W24-101 and 6 mg/kg ascorbic acid"
    std::string maturity; ///< "0.91 (0.84 to 0.97)"
    std::string time, money, label;
};

struct LeversModel {
    RunId run;
    std::string title; ///< "Pan bread, Fri 27 Nov, Line 1"
    std::string gap;   ///< "0.66 counted on, 0.90 is asked for: 0.24 short"
    std::string gap_spread;
    std::vector<std::string> too_far; ///< too strong, over-oxidised, past its best; empty: none of it
    std::vector<LeverRow> levers;
    std::vector<LeverMix> mixes;
    std::string no_mix; ///< why none reaches; empty: some do, or none is needed
    Refusals refusals;  ///< not empty: nothing can be said, and why
};

struct Station;

LeversModel make_levers(const Station& station, RunId run);

} // namespace mellowbin::app
