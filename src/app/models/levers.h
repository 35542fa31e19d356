#pragma once

#include "core/plant.h"
#include "core/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::app {

/// What of a remedy the plan can do at once: move the run, take so much of a lot that no run has, or let its
/// dough ferment longer; the latter two together where both stand there.
struct RemedyDeed {
    std::optional<Day> day = {};
    LotId lot = {};
    std::string lot_code = {};
    double kg = 0;
    int minutes = 0;      ///< of fermentation beyond the product's, in all; 0: none
    int minutes_more = 0; ///< of them, beyond what the run has already
};

/// One way to close the gap between a run's flour and the strength its product asks for.
struct LeverRow {
    enum class Standing { reaches, helps, not_needed, forbidden, not_known };
    std::string name; ///< "Wait", "Blend", "Oxidant", "Longer fermentation", "Water"
    Standing standing{};
    std::string figures; ///< "W24-118 alone is ready on Tue 1 Dec, 80 % sure"
    std::string spread;  ///< how sure that is
    std::string time, money, label;
    std::vector<std::string> notes; ///< why forbidden, cautions, assumptions
    std::optional<RemedyDeed> deed = {};
};

/// Whether it suffices: "enough alone", "helps, not enough alone".
std::string_view in_words(LeverRow::Standing standing);

/// Levers pulled together, the cheapest first.
struct LeverMix {
    std::string words;   ///< "20 % of W24-101 and 6 mg/kg ascorbic acid"
    double maturity = 0; ///< counted, 0 to 1
    double minutes = 0;  ///< of fermentation, more than the run has already; whole
    double money = 0;    ///< a run, in the plant's money; below 0: saved
    std::string label;
    std::optional<RemedyDeed> deed = {}; ///< its lot and its minutes; the card doses the rest
};

struct LeversModel {
    RunId run;
    std::string title;                           ///< "Pan bread, Fri 27 Nov, Line 1"
    std::optional<double> oxidant_ppm;           ///< mg/kg that the run's card doses; nothing: it has no dose
    double counted = 0, lowest = 0, highest = 0; ///< maturity of the blend: counted on, and its 80 %
    double target = 0;                           ///< maturity that is asked for
    bool is_short = false;                       ///< strength is missing
    std::string gap; ///< "Strength is short: 66 of 90 % mature, about 15 days at 20 °C too few"
    std::string gap_spread;
    std::vector<std::string> too_far; ///< too strong, over-oxidised, past its best; empty: none of it
    std::vector<LeverRow> levers;
    std::vector<LeverMix> mixes;
    std::string no_mix; ///< why none reaches; empty: some do, or none is needed
    Refusals refusals;  ///< not empty: nothing can be said, and why
};

struct Station;

/// "+12 a run"; "no money".
std::string money_words(double money);

LeversModel make_levers(const Station& station, RunId run);

} // namespace mellowbin::app
