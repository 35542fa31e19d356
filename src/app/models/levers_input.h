#pragma once

#include "app/book/station.h"
#include "app/models/run_card.h"
#include "dough/levers.h"

#include <memory>

namespace mellowbin::app {

/// What the levers of a run are weighed from, with what its parts point to.
struct LeversMade {
    std::unique_ptr<RunCard> card;
    dough::LeversInput input;
    double rate = 0; ///< of maturing at 20 °C, 1/d: the mean of its strength-carrying lots by mass
};
std::unique_ptr<LeversMade> levers_input(const Station& s, const Run& run, const Product& product,
                                         const Line& line);

} // namespace mellowbin::app
