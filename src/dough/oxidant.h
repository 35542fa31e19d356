#pragma once

#include "core/limit.h"
#include "core/result.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::dough {

/// mg of ascorbic acid per kg of flour that stand for the whole of the natural aging: a guess, with the range
/// that holds 95 % of flours. Learn it per flour from bakes.
struct AscorbicGuess {
    OxidantPpm likely, low, high;
    std::optional<double> glutathione = {}; ///< nmol/g of the fresh flour, where it was measured
};
/// Of flour of which nothing more is known: 6, from 1.5 to 20 (an assumption; free glutathione of seven
/// flours between 18 and 100 nmol/g). Where the free glutathione of the fresh flour was measured (nmol/g at
/// 14 % moisture, by the mill or the plant): 43 % of it goes (Chen & Schofield 1996), two to one, over the
/// efficiency; the range is then without the spread between flours.
AscorbicGuess ascorbic_acid_for_all_aging(std::optional<double> fresh_glutathione = {});

/// What the flour brings to its oxidation: protein (of the blend), what the mill put in already, and the
/// guess.
struct FlourForOxidant {
    std::optional<Protein14> protein; ///< for how much of it true oxidants take up
    std::span<const MillAddition> carried;
    AscorbicGuess all_aging = ascorbic_acid_for_all_aging();
};

/// What doses do. Ascorbic acid strengthens along a saturating curve, gain = A (1 - exp(-x)), x its dose over
/// the curve's scale, and makes up for missing age by the guess. True oxidants (bromate, iodate,
/// azodicarbonamide, peroxides) are added up among themselves only: no figure turns them into ascorbic acid
/// or into maturity (80 mg/kg of bromate and 20 of ascorbic acid baked alike, Arch. Latinoam. Nutr. 1993,
/// 43:234, where their equivalents would have said 6).
struct OxidantEffect {
    double along_curve = 0;      ///< x, of ascorbic acid
    double strength_index = 100; ///< resistance to extension by ascorbic acid, 100 = untreated
    Maturity maturity;           ///< of the flour with the ascorbic acid, as if it had aged so far; at most 1
    double sh_share = 0; ///< part of the accessible sulfhydryl that the true oxidants take; 0: not known
    std::vector<std::string> reservations;

    /// More oxidant than there is sulfhydryl for it: the band in which loaves get worse again. Where the
    /// decline begins in a flour, and how steep it is, nobody has published.
    [[nodiscard]] bool is_over_oxidised() const { return sh_share > 1; }
};

/// The dose that makes up for missing maturity.
struct OxidantNeed {
    Substance substance{};
    Maturity missing; ///< target less the blend's, at least 0
    OxidantPpm dose;  ///< for the bakery to add; 0 when nothing is missing or the mill has seen to it
    OxidantPpm low;   ///< by the ends of the guess, 95 %
    OxidantPpm high;
    std::vector<std::string> reservations;
};

/// Whether a figure says what dose of it makes up for missing maturity: ascorbic acid alone.
bool is_dosed_by_maturity(Substance substance);

/// mg per milliequivalent of sulfhydryl oxidised, of true oxidants; nothing for ascorbic acid, which is none,
/// and for what is not dosed here: bleaches, enzymes (by activity), reducing agents, persulphates (no
/// figure).
std::optional<double> mg_per_milliequivalent(Substance substance);

/// True oxidants added up as chemistry counts them: milliequivalents of sulfhydryl that they may oxidise, per
/// kg of flour. Never to be held against a limit: the law adds up by mass (room_for). Refused, by name, for
/// what is no true oxidant or has no figure: ascorbic acid, enzymes, bleaches, persulphates, reducing agents.
Result<double> milliequivalents(std::span<const MillAddition> doses);

/// A stock solution can be made of it. Refused, in words: what does not dissolve in water or goes to pieces
/// in it, and what is dosed by activity (enzymes). From memory; the supplier's data sheet holds.
Result<Done> may_be_dissolved(Substance substance);

/// How fast and at which stage of the dough a substance acts, in words with their source. Never empty.
std::string_view speed_and_stage(Substance substance);

/// The dose of ascorbic acid that makes up for what the blend lacks of the target maturity, the mill's own
/// taken off: a guess with its range. Nothing is asked of any substance where nothing is missing; where
/// something is, every other one is refused: only bakes say its dose.
Result<OxidantNeed> oxidant_for(Substance substance, Maturity blend, Maturity target,
                                const FlourForOxidant& flour);

/// What all doses together do to a blend of this maturity. What has no figure is left out with a reservation.
OxidantEffect effect_of(Maturity blend, std::span<const MillAddition> doses, std::optional<Protein14> protein,
                        const AscorbicGuess& all_aging = ascorbic_acid_for_all_aging());

} // namespace mellowbin::dough
