#pragma once

#include "app/acts/notice.h"

#include <exception>
#include <functional>

namespace mellowbin::app {

struct State;

/// What to tell of an act that failed, by what became of its change: what failed before the commit is not in
/// the book, what failed after it is. Where the disk failed in the commit itself, the book is opened again
/// and looked into, and only if that fails, too, is it not known. `read_anew` makes all that the screens show
/// from the book; it is called where the act is in the book, and may throw. The notice has no number yet.
Notice failure(State& state, const std::exception& error, const std::function<void()>& read_anew);

/// The same of work that writes nothing.
Notice failure_outside_the_book(const std::exception& error);

} // namespace mellowbin::app
