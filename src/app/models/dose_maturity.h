#pragma once

#include "aging/estimate.h"
#include "core/bake.h"

#include <optional>

namespace mellowbin::app {

/// How far the flour of a loaf has matured on a day: what was kept with the loaf, and what its estimate gains
/// from that day on; to a hundredth. Nothing where no maturity was kept with it, and for wholemeal, of which
/// nobody knows that it mellows.
std::optional<MaturityRange> matured_since(const Bake& loaf, const aging::Estimate& estimate, Day day);

} // namespace mellowbin::app
