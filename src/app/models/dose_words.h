#pragma once

#include "core/decimal.h"
#include "core/quantity.h"

#include <string>

namespace mellowbin::app {

/// mg per kg of flour, to the digits that card, plan and levers have in common: "10.67".
inline std::string dose_words(OxidantPpm dose) { return fixed(dose.value(), 2); }

} // namespace mellowbin::app
