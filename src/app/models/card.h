#pragma once

#include "app/models/figure.h"
#include "core/batch.h"
#include "core/house_units.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// A place from which the lot may be drawn.
struct CardPlace {
    std::string name;
    double kg = 0;         ///< of the lot
    bool is_first = false; ///< the batch is drawn from it first
};

struct CardLot {
    LotId lot;
    std::string code;
    double kg = 0;
    int bags = 0;
    double loose_kg = 0; ///< what is weighed beside whole bags
    std::string place;   ///< that the batch's part is drawn from: "Bay 2", "Bay 2 120.0 kg, Bay 3 80.0 kg"
    std::string readiness;
    bool is_withheld = false; ///< a stop is about it: no amount of it is read as one to weigh
    bool is_scanned = false;  ///< a bag of it was scanned for this batch
    std::vector<CardPlace> places = {};
    /// What a silo really gives: "holds A 60 %, may hold B 40 %"; empty: the lot alone.
    std::string drawn = {};
};

struct CardCaution {
    enum class Beside { card, oxidant }; ///< where on the card the act is that it is about
    std::string words;
    Beside beside = Beside::card;
};

/// Whether the batch may be mixed, as the screen says it.
struct CardVerdict {
    enum class Ruling { mix, answer_first, do_not_mix };
    Ruling ruling{};
    std::string words; ///< "Mix", "Answer first", "Do not mix"
    struct Reason {
        std::string key; ///< of its kind
        bool is_stop = false;
        std::string words; ///< what stands against it
        std::string lifted_by;
        std::string source;
    };
    std::vector<Reason> reasons; ///< the strictest first
};

/// From which batch on the run's card differs from the one shown, and in what.
struct CardChange {
    int batch = 0;
    std::string words; ///< "lot B26-031 in place of B26-030"
    struct Line {
        Figure then;
        Figure now;
    };
    std::vector<Line> lines; ///< what changes
};

/// A batch as it was logged.
struct BatchRow {
    BatchId id;
    int number = 0;
    std::string at, who;
    std::string words;        ///< what went in
    std::string result_words; ///< "26.4 °C, pH 5.4, right, 8 min"; empty: nobody said yet
    ResultDraft result;       ///< as a form starts, in the units of the house
    bool is_countered = false;
};

/// The mixer's card of one run, for one batch. Figures are in fixed units; `units` says what people there
/// read.
struct CardModel {
    RunId run;
    std::string run_code, product, line, market;
    Day day;
    int batch = 1, batches = 1; ///< the next one, of how many
    bool is_finished = false;
    HouseUnits units;
    double flour_kg = 0;
    std::vector<CardLot> lots;
    Figure water; ///< kg as told, rounded to the water step; note: exact, absorption, where from
    std::string water_range_words; ///< how often the water's range holds, and when it does less; empty: none
    Figure water_temperature;      ///< °C
    Figure ice;                    ///< kg
    Figure oxidant; ///< label: its name, empty where the product goes without; g or mL; note: exact, law
    std::optional<double>
        oxidant_ppm;      ///< mg per kg of all the flour that comes of it, as plan and levers say
    std::string solution; ///< "7.5 g/L, made 04:10 by Ines, until Thu 04:10"; empty: none is poured or logged
    bool solution_is_past = false;
    std::optional<SolutionId> solution_id;
    bool pours = false;       ///< the line pours this oxidant from a stock solution, where one is logged
    bool needs_check = false; ///< a second person must check the oxidant
    bool needs_scan = false;  ///< a bag of each lot must be scanned first
    Figure dough_temperature; ///< °C
    std::string mixing;       ///< "10 min"; empty: nobody says
    std::string fermentation; ///< in all: "70 min"
    std::string fermentation_why = {};   ///< "45 and 25 longer for strength"; empty: as the product's
    int fermentation_minutes = 0;        ///< in all
    int longer_fermentation_minutes = 0; ///< of them, for strength its flour lacks
    std::string next_words;              ///< "Batch 4 is the same"; empty after the last one
    std::optional<CardChange> change;    ///< ahead in the run
    CardVerdict verdict;
    std::string scanned_words; ///< "2 of 3 scanned"; empty: none is asked for, and none was scanned
    bool has_wrong_bag = false;
    std::vector<Figure> ingredients; ///< that are weighed in beside flour, water and oxidant
    std::vector<Figure> figures;     ///< of the blend and of the dough
    std::vector<CardCaution> cautions;
    std::vector<BatchRow> logged; ///< of the run, newest first, countered ones too
    Refusals refusals;            ///< not empty: there is no card, and why
};

struct Station;

CardModel make_card(const Station& station, RunId run);

} // namespace mellowbin::app
