#pragma once

#include "app/models/card.h"
#include "app/models/outlook.h"
#include "core/plant.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

struct PlannedLot {
    LotId lot;           ///< not known where the flour is still to come
    ExpectedId delivery; ///< known where it is
    std::string code;    ///< of the lot or of the delivery
    double kg = 0;
    bool is_locked = false;
    double maturity = 0;                ///< likely, 0..1, on the run's day
    double lowest = 0, highest = 0;     ///< in 80 of 100
    std::optional<Readiness> readiness; ///< on the run's day; not known of flour to come
    std::string reason;
};

struct PlannedRun {
    RunId id;
    std::string code, product, market;
    int line = 0; ///< index into lines
    Day day;
    int sequence = 0;
    double need_kg = 0, short_kg = 0;
    std::vector<PlannedLot> lots;
    double maturity = 0, maturity_target = 0; ///< of the blend
    double oxidant_ppm = 0; ///< of the next batch, as its card has it; of a run that is mixed, what went in
    std::string oxidant;    ///< its name; empty: the product goes without
    std::string oxidant_words; ///< "Ascorbic acid 10.67 mg/kg flour", or why there is none
    double windows_fill = 0;   ///< 0 at the window's middle, 1 at its edge, above outside: the worst property
    std::string windows_words; ///< "protein 0.2 % below"; empty: inside all
    std::string law_words;     ///< "room 12 mg/kg of 200 (Canada)"
    double law_fill = 0;       ///< share of the room that is used
    std::string dose_withheld = {};     ///< why the oxidant its strength asks for is not given; empty: it is
    std::string keeping_words = {};     ///< of the preservative, by law; empty: the product goes without
    bool keeping_withheld = false;      ///< its dose is told to nobody as one to weigh
    std::vector<std::string> reasons;   ///< of what is missing, each with what would cure it
    std::vector<std::string> forbidden; ///< a sentence a rule: which lots it forbids
    int possible_lots = 0;              ///< that no rule forbids; of a proposed plan
    std::string possible_words = {};    ///< their names
    /// Of the next batch, as its card has it; nothing: mixed already, past, without flour or only proposed.
    std::optional<CardVerdict> verdict = {};
    bool is_past = false;
    bool is_frozen = false;              ///< mixed already, or too near to be changed
    bool is_changed = false;             ///< the proposed plan has other lots or masses than the book
    std::string changed = {};            ///< "04:12, Ines": by another station, and not looked at here since
    int longer_fermentation_minutes = 0; ///< beyond the product's, for strength its flour lacks; 0: none
    std::string fermentation_words = {}; ///< "70 min: 45 and 25 longer for strength"; empty: the product's
};

class PlanView;
struct Given;
struct Station;

/// The run as the screen shows it: its windows judged need by need, its dose as its card has it.
PlannedRun planned_run(const Station& station, PlanView& view, const Run& run,
                       const std::vector<Given>& given);

} // namespace mellowbin::app
