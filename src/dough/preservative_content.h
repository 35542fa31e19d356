#pragma once

#include "core/plant.h"
#include "dough/keeping.h"

#include <optional>

namespace mellowbin::dough {

/// What the product's bread carries of propionate. Nothing without a preservative, or where the supplier's
/// figure of a cultured wheat is missing; refused as propionate_in_bread() refuses.
std::optional<Result<PropionateInBread>> preservative_content(const Product& product);

} // namespace mellowbin::dough
