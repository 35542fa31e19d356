#pragma once

#include "app/acts/act.h"
#include "core/lot.h"
#include "core/result.h"
#include "db/change.h"

namespace mellowbin::app {

/// A lot of which nothing is left is used up, and one that got flour back is not. Why not, where the book
/// refuses.
Refusals follow_the_stock(const State& state, Change& change, const Lot& lot, Grams left);

} // namespace mellowbin::app
