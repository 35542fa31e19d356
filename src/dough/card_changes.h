#pragma once

#include "dough/card.h"

#include <optional>

namespace mellowbin::dough {

/// The first batch ahead whose lots are not those of the one at hand.
struct ChangeAhead {
    int batches_on = 0; ///< after the one at hand
    Card card;          ///< of that batch
};

/// Looks through the batches that are left, each taking what the card says; nothing where the lots stay the
/// same to the end. `input` as for the batch at hand: what is left of every lot. Refused batches end the
/// look.
std::optional<ChangeAhead> change_ahead(const CardInput& input, const Card& now, int batches_left);

} // namespace mellowbin::dough
