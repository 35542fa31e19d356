#pragma once

#include "aging/learning.h"
#include "app/book/book.h"
#include "app/book/estimates.h"

#include <string>

namespace mellowbin::app {

/// What the retests of the plant's lots teach by now: of the newest lots with two comparable results or more,
/// up to as many as a screen should wait for.
aging::Learned learned_from(const Book& book, const Estimates& estimates);
/// Why that is not enough to be adopted; empty: it is.
std::string too_little(const aging::Learned& learned);
/// Each figure before and after, one a line.
std::string changes_in_words(const aging::Learned& learned);

} // namespace mellowbin::app
