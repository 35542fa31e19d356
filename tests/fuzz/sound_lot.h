#pragma once

#include "core/lot.h"

namespace mellowbin::fuzz {

/// What holds of every lot that intake takes, whoever read it.
void expect_sound(const Lot& lot, Day today);

} // namespace mellowbin::fuzz
