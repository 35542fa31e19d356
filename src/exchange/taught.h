#pragma once

#include "dough/taught_state.h"

#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// What doughs taught as JSON text, for the book; taught_from_json() is its inverse, to the last bit.
std::string taught_as_json(const dough::TaughtState& state);
/// The text comes from our own book: throws std::runtime_error, saying what does not fit, where it is broken.
/// The state is whole.
dough::TaughtState taught_from_json(std::string_view text);

} // namespace mellowbin::exchange
