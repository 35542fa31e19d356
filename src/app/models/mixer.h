#pragma once

#include "app/acts/intents.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

/// What is shown of doughs: the mixer's card, the levers of a run, how bread keeps, bake ladders. Part of the
/// read-models.
namespace mellowbin::app {

/// A loaf of the lot's bake ladder.
struct LadderRow {
    BakeId id;
    std::string day, dose, size, note, who;
    bool is_withdrawn = false;
};

/// What a lot's loaves say of one oxidant.
struct LadderModel {
    std::string substance, unit; ///< unit of size: "ml", "mm"
    std::vector<LadderRow> rows; ///< newest first
    std::string best_words;      ///< "best at 42 mg/kg (30 to 55): 5 loaves of its own, 4 lots behind them"
    std::string gain_words;      ///< "48 ml over none (20 to 75)"
    std::string next_words;      ///< "Bake 40 mg/kg next: narrows the best dose from 25 to about 15 mg/kg"
    struct Point {
        double dose = 0, low = 0, likely = 0, high = 0; ///< mg/kg; size at 10, 50 and 90 %
    };
    std::vector<Point> curve;
    std::vector<std::pair<double, double>> loaves; ///< dose, size; those that count
    std::vector<std::string> notes;                ///< cut by law, at the end of what was baked, assumptions
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

struct RunChoice {
    RunId run;
    std::string words; ///< "Line 1, 1st: Pan bread, 12 batches"
    bool is_finished = false;
};

struct KeepingLimit {
    enum class Standing { permitted, unconfirmed, forbidden };
    Standing standing{};
    std::string words;
};

struct KeepingRow {
    KeepingId id;
    std::string day, words, who; ///< "day 5: mould seen, pH 5.4"
    bool is_withdrawn = false;
};

/// How a product's bread keeps.
struct KeepingModel {
    ProductId product;
    std::string product_name;
    std::vector<CardLine> figures; ///< dose, in bread, undissociated share, enzyme
    std::vector<KeepingLimit> limits;
    std::vector<std::string> warnings; ///< pH above the working range, too much, too early mould
    std::string mould_line;            ///< days by the published line, or why it is refused
    std::string site_words;            ///< the site's own record
    std::vector<std::string> advice;   ///< sanitation first, then dose
    std::vector<KeepingRow> records;   ///< newest first
    struct Firmness {
        int days = 0;
        double low = 0, mean = 0, high = 0; ///< g, of the records of that day
        int loaves = 0;
    };
    std::vector<Firmness> firmness; ///< by days
};

struct MixerModel {
    Day today;
    std::vector<RunChoice> runs; ///< of today, by line and sequence
    std::optional<CardModel> card;
    std::optional<LeversModel> levers;   ///< of the run asked about
    std::optional<KeepingModel> keeping; ///< of the product of the run shown
    std::vector<std::string> oxidants;   ///< names, for a stock solution
    std::uint64_t batches_logged =
        0; ///< counts what was accepted here: the view empties its forms when it changes
};

} // namespace mellowbin::app
