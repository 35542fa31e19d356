#pragma once

#include "core/batch.h"

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
    double shown = 0;        ///< in the house's unit of mass
    double loose_shown = 0;  ///< in the house's unit of mass
    bool is_scanned = false; ///< a bag of it was scanned for this batch
};

struct CardLine {
    std::string label, value, unit, note; ///< note: where it comes from, what it was before rounding
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
    std::string words;           ///< "lot B26-031 in place of B26-030"
    std::vector<CardLine> lines; ///< what changes: the figure of then; note: "52.1 now"
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

/// The mixer's card of one run, for one batch. Figures are in the units of the house.
struct CardModel {
    RunId run;
    std::string run_code, product, line, market;
    Day day;
    int batch = 1, batches = 1; ///< the next one, of how many
    bool is_finished = false;
    std::string mass_unit = "kg", temperature_unit = "°C";
    double flour_kg = 0;
    double flour_shown = 0; ///< in the house's unit of mass
    std::vector<CardLot> lots;
    std::string water_kg;                                  ///< as told, rounded to the water step
    std::string water_note;                                ///< exact figure, absorption, where from
    std::string water_temperature, water_temperature_note; ///< °C
    std::string ice_kg, ice_note;
    std::string oxidant, oxidant_amount, oxidant_unit, oxidant_note; ///< name; "7.5"; "g" or "mL"; exact, law
    std::string oxidant_grams; ///< of the substance, also where it is poured: "2.86"; empty: none goes in
    std::string solution; ///< "7.5 g/L, made 04:10 by Ines, until Thu 04:10"; empty: none is poured or logged
    bool solution_is_past = false;
    std::optional<SolutionId> solution_id;
    bool needs_check = false; ///< a second person must check the oxidant
    bool needs_scan = false;  ///< a bag of each lot must be scanned first
    std::string dough_temperature, fermentation;
    std::string next_words;           ///< "Batch 4 is the same"; empty after the last one
    std::optional<CardChange> change; ///< ahead in the run
    std::vector<CardLine> figures;    ///< blend figures and other ingredients
    std::vector<CardCaution> cautions;
    std::vector<BatchRow> logged; ///< of the run, newest first, countered ones too
    Refusals refusals;            ///< not empty: there is no card, and why
};

struct Scanned;
struct Station;

CardModel make_card(const Station& station, const Scanned& scanned, RunId run);

} // namespace mellowbin::app
