#pragma once

#include "dough/card.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::dough::parts {

/// The dose a card asks for before law and scale, in mg per kg of all the flour of the dough.
struct WantedDose {
    OxidantPpm dose;
    Origin origin = Origin::model;
    OxidantNeed need;              ///< by maturity
    std::optional<BestDose> baked; ///< where every lot that carries the strength was baked
    std::vector<Caution> cautions;
};

/// By the bakes of the lots that carry the strength, mean by mass; by the need for missing maturity where
/// none was baked; a mean by mass of the two where some were. Refused only where a lot without bakes needs a
/// figure that is missing.
Result<WantedDose> wanted_dose(const CardInput& input, const Card& card, Substance substance);

/// Doses are mg per kg of all the flour of the dough; what they do is worked out on the part that carries its
/// strength, as if all of it went there (an assumption; without a second flour it is all the flour).
std::vector<MillAddition> on_strength(std::vector<MillAddition> doses, const Card& card);

/// The guess for the flour that carries the strength, mean by mass: lots whose glutathione was measured by
/// theirs, the others by what is usual.
AscorbicGuess all_aging_of(const CardInput& input, const Card& card);

/// What can be done where the scale cannot weigh so little: millilitres of a solution of a round strength (of
/// what dissolves), or grams of a 1 % premix.
std::string instead_of_weighing(Substance substance, const Weighing& weighing);

} // namespace mellowbin::dough::parts
