#pragma once

#include "app/book/book.h"

namespace mellowbin::app {

/// The run may not be planned anew: batches of it are mixed; or it has all its flour and its day is one of
/// the first so many days, today's the first, that Settings name as frozen ("freeze_days"), unless one of its
/// lots may no longer be used (held, rejected, used up, forbidden by its market, less in stock than near runs
/// have of it) or its delivery comes too late.
bool is_frozen(const Book& book, const Run& run, Day today);

} // namespace mellowbin::app
