#pragma once

#include "app/book/book.h"

#include <optional>
#include <vector>

namespace mellowbin::app {

/// All that some runs have, from the book or as it is to be.
struct RunFlour {
    std::vector<RunId> runs;
    std::vector<Assignment> assignments;
    std::vector<Promise> promises = {};
};
RunFlour flour_of_runs(const Book& book, std::vector<RunId> runs);

/// What one of a run's flours has of lots and deliveries, as masses that can be cut.
struct Held {
    std::vector<Assignment*> assignments; ///< open ones, the larger first
    std::vector<Promise*> promises;
    Grams fixed; ///< locked, or in dough already
};

/// Points into `plan`, which must not grow or shrink meanwhile.
Held held_by(const Book& book, const Product& product, FlourPart part, RunFlour& plan);

/// Cuts what is open of a flour down to `room`: lots that are not released first, since they go into no
/// dough, then the others in proportion: their blend stays the same. Where a batch takes one lot alone (then
/// `batch` is its flour), whole batches go instead, the smallest part first. What is cut to nothing stays
/// with a mass of 0.
void cut(const Book& book, const Held& held, Grams room, std::optional<Grams> batch);
void drop_empty(RunFlour& plan);

} // namespace mellowbin::app
