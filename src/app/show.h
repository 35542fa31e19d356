#pragma once

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "db/journal_store.h"

namespace mellowbin::app {

/// Makes every read-model, of a book that was just read.
void show_all(State& state);
/// Makes anew what was touched, and shows what was called up for it.
void show(State& state, Touched looked_at);
/// Makes anew what rests on the records that were written.
void show(State& state, const Changes& changes, Touched looked_at);

/// The line on top alone.
void show_overview(State& state);
void show_plan(State& state);

} // namespace mellowbin::app
