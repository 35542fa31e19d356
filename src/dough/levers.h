#pragma once

#include "dough/card.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// Ways to make up for strength that a run's flour lacks, side by side. Strength is counted in maturity: the
/// fraction of its natural strengthening that a flour has gone through, or does as if it had.
namespace mellowbin::dough {

/// A lot that could go into the run beside or in place of its own, as it will lie there on the run's day.
struct OtherLot {
    const Lot* lot = nullptr;
    Maturity counted; ///< reached with the confidence set
    Maturity lowest;  ///< 80 % interval
    Maturity highest;
    Grams free;                     ///< of it that no run has and nobody kept back
    std::int64_t price_per_tonne{}; ///< minor units
    std::string forbidden;          ///< why not into this product, by the plan's rules; empty: it may
};

/// How the run's own flour would be on a day.
struct WaitDay {
    Day day;
    Maturity counted;
    double probability = 0; ///< that the blend has reached the target
};

/// What a batch of the same product last got of water against its optimum.
struct LastWater {
    AbsorptionPoints from_optimum; ///< above 0: too much
    double sd = 0;                 ///< of the optimum, points
    std::string words;             ///< "batch 3 of R261126-1-1"
};

/// Minor units of money.
struct LeverPrices {
    double flour_per_tonne = 0; ///< of the run's own flour, mean by mass
    double oxidant_per_kg = 0;  ///< 0: not set
    double line_per_minute = 0; ///< of longer fermentation; 0: not set
};

struct LeversInput {
    CardInput card; ///< the run with its lots; the maturity of its lots is what is counted on
    std::vector<OtherLot> others;
    std::vector<WaitDay> wait; ///< from the run's day on, in order; empty: not known
    std::optional<LastWater> last_water;
    LeverPrices prices;
};

/// What a lever does for the strength.
enum class Reach {
    reaches,    ///< meets the demand alone
    helps,      ///< not alone
    not_needed, ///< nothing is missing, or nothing is wrong
    forbidden,  ///< by the product, the plan's rules or the law
    not_known,  ///< no figure for it holds here
};

struct WaitLever {
    Reach reach{};
    std::optional<Day>
        reached_on; ///< first day with the demand met as sure as is asked; none: not in the days seen
    double probability_now = 0;
    std::optional<WaitDay> last_seen; ///< how far it comes in the days looked at
};

struct BlendOption {
    const OtherLot* lot = nullptr;
    double share = 0; ///< of the strength-carrying flour
    Grams mass;       ///< over the run
    Maturity maturity;
    Maturity lowest;
    Maturity highest;
    double money = 0; ///< against the run as it stands
    bool reaches = false;
};

struct BlendLever {
    Reach reach{};
    std::vector<BlendOption> options; ///< that reach first, the cheapest of them first; at most 12
    int looked_at = 0;                ///< other lots
    std::string why_not;              ///< where there is none
};

struct OxidantLever {
    Reach reach{};
    std::optional<CardOxidant> dose; ///< of one batch
    double grams_per_run = 0;
    Maturity maturity; ///< with it
    double money = 0;
    std::string why_not;
};

struct FermentLever {
    Reach reach{};
    bool is_calibrated = false; ///< by the plant's own bakes; else nothing is claimed of it
    double minutes = 0;         ///< more than the run's dough ferments already
    int most = 0;               ///< minutes that the product still allows beside these
    Maturity maturity;          ///< with what is allowed of it
    double maturity_per_hour = 0;
    double money = 0;
    std::string why_not;
};

struct WaterLever {
    Reach reach{};
    std::optional<LastWater> stands;
    Absorption14 optimum;
    double optimum_sd = 0;
    std::string why_not;
};

/// Levers together, that meet the demand.
struct LeverMix {
    std::optional<BlendOption> blend;
    OxidantPpm dose;    ///< of the product's oxidant, by the bakery
    double minutes = 0; ///< of fermentation, more than the run's dough ferments already
    Maturity maturity;  ///< counted
    double money = 0;
    [[nodiscard]] int levers() const {
        return (blend ? 1 : 0) + (dose.value() > 0 ? 1 : 0) + (minutes > 0 ? 1 : 0);
    }
};

/// The other side: strength that is too much of a good thing.
struct TooFar {
    std::vector<std::string> words;
};

struct Levers {
    Maturity counted; ///< of the run's blend
    Maturity lowest;
    Maturity highest;
    Maturity target;
    double missing = 0; ///< of maturity, 0 or more
    WaitLever wait;
    BlendLever blend;
    OxidantLever oxidant;
    FermentLever ferment;
    WaterLever water;
    std::vector<LeverMix> mixes; ///< of blend, oxidant and fermentation; the cheapest first, at most 6
    std::string no_mix;          ///< why there is none though strength is missing
    TooFar too_far;
};

/// Refused where the run has no card. The others must outlive what is given back.
Result<Levers> weigh_levers(const LeversInput& input);

} // namespace mellowbin::dough
