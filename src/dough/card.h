#pragma once

#include "core/blend.h"
#include "core/house_units.h"
#include "core/lot.h"
#include "core/retest.h"
#include "dough/caution.h"
#include "dough/dose_response.h"
#include "dough/keeping.h"
#include "dough/law.h"
#include "dough/mixing_belief.h"
#include "dough/oxidant.h"
#include "dough/temperature.h"
#include "dough/verdict.h"
#include "dough/water.h"
#include "dough/water_belief.h"
#include "dough/weigh.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::dough {

/// Where a figure on the card comes from.
enum class Origin { measured, certificate, model, setting, assumed, law };
std::string_view name_of(Origin origin); ///< "certificate", "model", …

/// A moisture that is not measured but told by the drift in the lot's places.
struct DriftedMoisture {
    Moisture measured; ///< the newest that was
    double sd = 0;     ///< of what is told now, points of moisture
};

/// A lot as it goes into the run.
struct CardLot {
    const Lot* lot = nullptr;
    Grams mass;        ///< assigned to the run
    Maturity maturity; ///< on the day of the run: the estimate, and the band it may lie in
    Maturity lowest;
    Maturity highest;
    Celsius temperature;                    ///< of the flour, as its place is
    bool has_target = true;                 ///< of the flour that the product's target of maturity is about
    std::optional<AbsorptionStart> start;   ///< where its certificate has no absorption
    std::optional<BestDose> best_dose;      ///< of the product's oxidant, by bakes
    std::optional<Maturity> baked_at;       ///< its maturity when it was baked, likely
    std::optional<Day> past_best_from = {}; ///< by the aging estimate
    const Flour* flour = nullptr;           ///< what its figures are held against; null: nobody knows
    const Retest* retest = nullptr;         ///< the newest that stands; null: none
    std::optional<DriftedMoisture> drift{}; ///< nothing: the certificate's moisture was measured on the day
    std::optional<double> glutathione =
        {}; ///< free, nmol/g at 14 %, of the fresh flour; where it was measured
};

/// A bag that belongs on no card of the batch.
struct WrongBag {
    std::string code;
    std::string words; ///< "04:12 by Ines"
};

/// What was scanned for the batch.
struct BagsScanned {
    bool is_asked = false;       ///< the plant wants a bag of each lot scanned
    std::vector<LotId> right;    ///< lots of which one was
    std::vector<WrongBag> wrong; ///< that nobody cleared, and that no right bags followed
};

/// From which distance on what is told or typed asks for a word. Choices of the plant.
struct Distances {
    Celsius hot_water{40};             ///< common practice, no source: yeast is harmed
    CelsiusStep water_temperature{10}; ///< typed, from the card's
    double water_percent = 15;         ///< typed, of the card's water
    CelsiusStep dough_temperature{5};  ///< typed, from the one aimed at
    CelsiusStep too_warm{3};           ///< the dough, for want of cold
    double solution_percent = 50;      ///< of the line's strength
};

/// The solution that the oxidant is poured from.
struct SolutionAtHand {
    double grams_per_litre = 0;
    std::string words;    ///< "made 04:10 by Ines, keeps until 04:10 tomorrow"
    bool is_past = false; ///< its day is over: nothing may be poured from it
};

struct CardInput {
    Run run;
    Product product; ///< as the run bakes it: as_baked()
    Line line;
    std::vector<CardLot> lots;
    Law law;
    std::span<const PropionateRow> propionate_rows;
    std::optional<Absorption14> last_run_absorption; ///< dough absorption of the product's last run
    std::optional<WaterLearned> water_learned;       ///< nothing: the product's own offset holds
    std::optional<MixingHeat> mixing;       ///< learned; nothing: the line's own figure, or the factor method
    std::optional<SolutionAtHand> solution; ///< nothing: none is logged
    AbsorptionPoints water_correction{0};   ///< gluten added, liquid ingredients
    double oxidant_purity = 1;              ///< mass share of active substance
    std::optional<double> bread_ph;         ///< of crumb or dough, as measured; for the preservative
    std::string ph_words;                   ///< "crumb, 24 Nov"
    std::optional<Day> mixed_on;            ///< where the run's day is over; nothing: on that day
    HouseUnits units;                       ///< that words are told in
    Grams mixed;                            ///< of the run's flour, in dough already
    BagsScanned bags;
    Distances distances;
    std::optional<int> early_mould; ///< the day mould was seen on in the newest bakes, where that is early
};

/// One lot in one batch.
struct CardFlour {
    LotId lot;
    std::string code;
    Grams mass;
    double share = 0; ///< of the batch
    int bags = 0;     ///< whole ones; 0 when it came loose
    Grams rest;       ///< to weigh from an opened bag, or all of it when loose
    Maturity maturity;
    Maturity lowest;
    Maturity highest;
    std::vector<MillAddition> additions;
};

struct CardBlendFigure {
    Property property{};
    std::optional<double> value; ///< at 14 % moisture where it has a basis; nothing: not known of some lot
    bool is_estimate = false;    ///< strength of a blend: ask for a blend test
    Origin origin = Origin::certificate;
};

/// Water of the batch. told + ice + stock solution + what the ingredients bring are all of it.
struct CardWater {
    DoughWater dough; ///< exact; its rounded figure does not know of ice and stock solution
    Kilograms told;   ///< by the meter, a whole number of its steps
    Kilograms ice;
    Kilograms stock_solution; ///< its water, already taken off
    Kilograms ingredients;    ///< water in them, already taken off
    Absorption14 resulting;   ///< what all of it comes to
    Origin offset_origin = Origin::assumed;
    double sd = 0;   ///< of the target, points, with what is not known of the flour's moisture; 0: not known
    int batches = 0; ///< that the offset was learned from
    std::vector<AbsorptionStart> guessed; ///< of lots whose certificates have no absorption
};

enum class TemperatureMethod { heat_balance, factors };

struct CardTemperature {
    TemperatureMethod method{};
    Celsius dough;
    Celsius room;
    Celsius flour; ///< mean by mass
    WaterAndIce mix;
    std::optional<MixingHeat> learned; ///< that the balance went by
    /// How far from `dough` it may come out by the line's own thermometer, to hold in 80 of 100; 0: not
    /// known.
    CelsiusStep give_or_take;
};

struct CardOxidant {
    Substance substance{};
    OxidantNeed need;
    Room room;
    OxidantPpm wanted;                ///< by bakes or maturity, before the law
    OxidantPpm exact;                 ///< that, or the room where it is less
    std::optional<Weighing> weighing; ///< dry
    std::optional<Pouring> pouring;   ///< or as stock solution
    double stock_g_per_l = 0;
    OxidantPpm resulting;          ///< what the rounded dose comes to
    Judged judged;                 ///< the rounded dose, held against the law again
    OxidantEffect effect;          ///< with what the mill put in
    Origin origin = Origin::model; ///< measured: by the bakes of every lot in the blend
    std::optional<BestDose> baked; ///< by bakes, mean by mass over the lots
    double exact_g = 0;            ///< of substance as weighed, also where it is poured
    std::optional<SolutionAtHand> solution;
};

/// A dose is wanted, and the law as this plant holds it gives none of it.
bool is_withheld(const CardOxidant& oxidant);

struct CardIngredient {
    std::string name;
    double percent_of_flour = 0;
    Kilograms mass;
    Kilograms water;                    ///< in it
    std::optional<Celsius> temperature; ///< of its own; nothing: the room's
    Origin origin = Origin::setting;
};

struct CardKeeping {
    Preservative preservative{};
    double percent_of_flour = 0;
    double exact_g = 0;
    std::optional<PropionateInBread> in_bread; ///< nothing: what the cultured wheat holds is not known
    std::vector<KeepingJudged> judged;
    std::optional<double> ph;            ///< that it goes by
    std::optional<double> undissociated; ///< share, where the pH of the bread is known
    std::string ph_words;                ///< "crumb, 24 Nov"
    bool is_withheld = false;            ///< the law, or what is not known, gives none of it
    std::string withheld_words;          ///< why
};

/// What the mixer reads for one batch of a run.
struct Card {
    RunId run;
    std::string run_code;
    std::string product;
    std::string line;
    std::string market;
    Day day;
    int batches = 1;
    Grams batch_flour;     ///< the lots' grams add up to it exactly
    bool is_short = false; ///< less flour is left for the run than a batch takes
    std::vector<CardFlour> flour;
    std::vector<CardBlendFigure> blend;
    double strength_share = 1; ///< of the flour: the part that the target of maturity is about
    AscorbicGuess all_aging = ascorbic_acid_for_all_aging(); ///< of that part
    Maturity maturity; ///< of that part of the blend; mean by mass, an assumption
    Maturity lowest;
    Maturity highest;
    std::vector<MillAddition> carried; ///< mg per kg of all the flour
    Judged carried_judged;
    std::optional<Result<CardOxidant>>
        oxidant; ///< nothing: the product goes without; refused: says what is missing
    Result<CardWater> water = Refusal{"Water", "not known", ""};
    Result<CardTemperature> temperature = Refusal{"Water temperature", "not known", ""};
    Celsius dough_temperature;
    int fermentation_minutes = 0;        ///< in all
    int longer_fermentation_minutes = 0; ///< of them, for strength its flour lacks
    double mixing_minutes = 0;
    std::vector<CardIngredient> ingredients;
    std::optional<Kilograms> dough; ///< all of it; nothing where the water is not known
    std::optional<CardKeeping> keeping;
    std::vector<Caution> cautions;
};

/// The card of one batch: of both flours where the formula takes two; of one lot of each where a batch takes
/// one lot alone, the first that reaches for it. Refused, with every reason, where no dough may be made from
/// these lots: none assigned, a lot that is not released or of another flour, a lot the market forbids. What
/// only lacks a figure is refused in its own part (water, oxidant) and the rest of the card stands.
Result<Card> make_card(const CardInput& input);
/// The same as far as its dose: flour, blend and oxidant to the digit, and what is to be known of them. For
/// who asks for no water: a plan of many runs.
Result<Card> make_dose_card(const CardInput& input);

/// Whether the batch may be mixed, by all that its card was made from and what that came to.
Verdict verdict_of(const CardInput& input, const Result<Card>& card);

/// What somebody typed of a batch, where it was not as the card says.
struct TypedFigures {
    std::optional<Kilograms> water; ///< by the meter
    std::optional<Celsius> water_temperature;
    std::optional<Celsius> dough_temperature; ///< of what came of it
};
/// What of it lies too far from the card to go without a word.
Verdict verdict_of(const CardInput& input, const Card& card, const TypedFigures& typed);

} // namespace mellowbin::dough
