#pragma once

#include "core/lot.h"

#include <string_view>

namespace mellowbin {

/// A lot's state within a sentence: "on hold", "in quarantine".
std::string_view in_words(LotState state);

} // namespace mellowbin
