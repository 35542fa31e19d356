#pragma once

#include "core/limit.h"
#include "core/result.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::dough {

/// What the flour brings to its oxidation: protein (of the blend) and what the mill put in already.
struct FlourForOxidant {
    std::optional<Protein14> protein; ///< needed for every oxidant but ascorbic acid
    std::span<const MillAddition> carried;
};

/// How strong doses make the dough, by one saturating curve for all oxidants: gain = A (1 - exp(-x)).
/// x is the dose of ascorbic acid over its scale, or milliequivalents over a third of the accessible
/// sulfhydryl.
struct OxidantEffect {
    double along_curve = 0;      ///< x
    double strength_index = 100; ///< resistance to extension, 100 = untreated
    Maturity maturity;           ///< of the flour with the doses, as if it had aged so far; at most 1
    double sh_share = 0;         ///< oxidised part of the accessible sulfhydryl, ascorbic acid left out
    std::vector<std::string> reservations;

    /// More oxidant than there is sulfhydryl for it: the band in which loaves get worse again. Where the
    /// decline begins in a flour, and how steep it is, nobody has published.
    [[nodiscard]] bool is_over_oxidised() const { return sh_share > 1; }
};

/// The dose that makes up for missing maturity.
struct OxidantNeed {
    Substance substance{};
    Maturity missing;         ///< target less the blend's, at least 0
    OxidantPpm ascorbic_acid; ///< that would do the same, the mill's part included
    OxidantPpm dose;          ///< for the bakery to add; 0 when nothing is missing or the mill has seen to it
    std::vector<std::string> reservations;
};

/// mg of ascorbic acid per kg of flour that stand for the whole of the natural aging: the glutathione lost in
/// it, two to one, over the efficiency. An assumption that nobody has validated (Chen & Schofield 1996 gives
/// the loss).
OxidantPpm ascorbic_acid_for_all_aging();

/// mg per milliequivalent of sulfhydryl oxidised; nothing for ascorbic acid (its own scale) and for what is
/// not dosed here: bleaches, enzymes (by activity), reducing agents, persulphates (no figure).
std::optional<double> mg_per_milliequivalent(Substance substance);

/// Doses added up as chemistry counts them: milliequivalents of sulfhydryl that they may oxidise, per kg of
/// flour; of ascorbic acid by its dehydro form, two to a molecule. Never to be held against a limit: the law
/// adds up by mass (room_for). Refused, by name, for what has no figure: enzymes, bleaches, persulphates,
/// reducing agents.
Result<double> milliequivalents(std::span<const MillAddition> doses);

/// A stock solution can be made of it. Refused, in words: what does not dissolve in water or goes to pieces
/// in it, and what is dosed by activity (enzymes). From memory; the supplier's data sheet holds.
Result<Done> may_be_dissolved(Substance substance);

/// How fast and at which stage of the dough a substance acts, in words with their source. Never empty.
std::string_view speed_and_stage(Substance substance);

/// The dose of `substance` that lifts the blend to the target maturity, with the mill's part taken off along
/// the same curve. Refused where the substance does not strengthen by a known figure, or the protein is not
/// known.
Result<OxidantNeed> oxidant_for(Substance substance, Maturity blend, Maturity target,
                                const FlourForOxidant& flour);

/// What all doses together do to a blend of this maturity. What has no figure is left out with a reservation.
Result<OxidantEffect> effect_of(Maturity blend, std::span<const MillAddition> doses,
                                std::optional<Protein14> protein);

} // namespace mellowbin::dough
