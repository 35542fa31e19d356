#pragma once

#include "core/limit.h"

#include <string>
#include <vector>

namespace mellowbin::dough {

enum class CautionKind {
    hazard,   ///< to health or of fire
    allergen, ///< wheat
    raw_food, ///< flour and dough are not ready to eat
    law,      ///< a limit, a duty, a row that is not confirmed
    estimate, ///< a figure that rests on an assumption or on nothing measured
    process,  ///< something will not come out as aimed
};

/// Where the act happens that it warns of: it stands there.
enum class CautionAt { card, flour, water, oxidant, bread };

struct Caution {
    CautionKind kind{};
    CautionAt at{};
    std::string words;
    std::string source; ///< of a fact; empty for the plant's own
    friend bool operator==(const Caution&, const Caution&) = default;
};

/// What stands on every card: flour dust, wheat, raw dough, local law and qualified staff first.
std::vector<Caution> standing_cautions();

/// What to know before a substance is opened and weighed. Never empty.
std::vector<Caution> hazards_of(Substance substance);

} // namespace mellowbin::dough
