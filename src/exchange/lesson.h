#pragma once

#include "aging/learning.h"

#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// A lesson as JSON text, for the book; lesson_from_json() is its inverse, to the last bit.
std::string lesson_as_json(const aging::Lesson& lesson);
/// The text comes from our own book: throws std::runtime_error, saying what does not fit, where it is broken.
aging::Lesson lesson_from_json(std::string_view text);

} // namespace mellowbin::exchange
