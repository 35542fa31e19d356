#pragma once

#include "dough/card.h"

#include <optional>
#include <vector>

namespace mellowbin::dough {

/// What law and house make of a card, as far as what goes into the dough differs by it: two cards that are
/// equal in this are ruled alike.
struct RuledCard {
    std::vector<Permission> lots;
    std::optional<Permission> oxidant; ///< where some is asked for
    OxidantPpm oxidant_dose;
    bool is_preservative_withheld = false;
    double preservative_g = 0;
    friend bool operator==(const RuledCard&, const RuledCard&) = default;
};

RuledCard ruled(const CardInput& input, const Result<Card>& card);

} // namespace mellowbin::dough
