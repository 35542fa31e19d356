#pragma once

#include "app/models/figure.h"
#include "core/batch.h"
#include "core/house_units.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

struct CardLot {
    LotId lot;
    std::string code;
    double kg = 0;
    int bags = 0;
    double loose_kg = 0; ///< what is weighed beside whole bags
    std::string place;
    std::string readiness;
    bool is_scanned = false; ///< a bag of it was scanned for this batch
};

struct CardCaution {
    enum class Beside { card, oxidant }; ///< where on the card the act is that it is about
    bool is_stop = false;                ///< else: mind
    std::string words;
    Beside beside = Beside::card;
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
    Figure water;             ///< kg as told, rounded to the water step; note: exact, absorption, where from
    Figure water_temperature; ///< °C
    Figure ice;               ///< kg
    Figure oxidant;   ///< label: its name, empty where the product goes without; g or mL; note: exact, law
    Figure substance; ///< g of the oxidant itself, also where it is poured; no value: none goes in
    std::string solution; ///< "7.5 g/L, made 04:10 by Ines, until Thu 04:10"; empty: none is poured or logged
    bool solution_is_past = false;
    std::optional<SolutionId> solution_id;
    bool needs_check = false; ///< a second person must check the oxidant
    bool needs_scan = false;  ///< a bag of each lot must be scanned first
    Figure dough_temperature; ///< °C
    std::string fermentation;
    std::string next_words;           ///< "Batch 4 is the same"; empty after the last one
    std::optional<CardChange> change; ///< ahead in the run
    std::vector<Figure> figures;      ///< blend figures and other ingredients
    std::vector<CardCaution> cautions;
    std::vector<BatchRow> logged; ///< of the run, newest first, countered ones too
    Refusals refusals;            ///< not empty: there is no card, and why
};

struct Scanned;
struct Station;

CardModel make_card(const Station& station, const Scanned& scanned, RunId run);

} // namespace mellowbin::app
