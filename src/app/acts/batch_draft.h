#pragma once

#include "app/acts/act.h"
#include "app/acts/batches.h"
#include "app/models/run_card.h"

#include <vector>

namespace mellowbin::app {

/// Reads what was typed of a batch against its card, which must be there: every reason at once, each at its
/// field, with what is possible instead. The batch has no number in the book, person or instant yet.
Result<Batch> accept(const State& s, const BatchDraft& draft, const RunCard& made);

/// Reads what came of a batch: a dough of 260 degrees, pH 14 and the like are refused at their fields.
Result<BatchResult> accept(const State& s, const ResultDraft& draft);

} // namespace mellowbin::app
