#pragma once

#include "core/id.h"
#include "core/quantity.h"
#include "db/connection.h"

namespace mellowbin {

/// What went into batches that stand: of a run, or of one.
struct DoughMade {
    int batches = 0;
    Grams flour;
    Grams dough; ///< flour, water, ice, ingredients by the product's formula now, and what was put back into
                 ///< them
    Grams put_back; ///< dough of these that went into later batches, their own among them
    double bread_yield = 0;
};

DoughMade dough_made(Connection& connection, RunId run);
DoughMade dough_made(Connection& connection, BatchId batch);

} // namespace mellowbin
