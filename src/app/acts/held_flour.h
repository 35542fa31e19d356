#pragma once

#include "app/acts/assignments.h"
#include "app/book/book.h"

#include <optional>
#include <vector>

namespace mellowbin::app {

/// What one of a run's flours has of lots and deliveries, as masses that can be cut.
struct Held {
    std::vector<Assignment*> assignments; ///< open ones, the larger first
    std::vector<Promise*> promises;
    Grams fixed; ///< locked, or in dough already
};

/// Points into `plan`, which must not grow or shrink meanwhile.
Held held_by(const Book& book, const Product& product, FlourPart part, RestoreAssignments& plan);

/// Cuts what is open of a flour down to `room`, in proportion: the blend stays the same. Where a batch takes
/// one lot alone (then `batch` is its flour), whole batches go instead, the smallest part first. What is cut
/// to nothing stays with a mass of 0.
void cut(const Book& book, const Held& held, Grams room, std::optional<Grams> batch);
void drop_empty(RestoreAssignments& plan);

} // namespace mellowbin::app
