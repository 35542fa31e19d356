#pragma once

#include "app/acts/act.h"
#include "app/acts/batches.h"
#include "app/models/run_card.h"

#include <vector>

namespace mellowbin::app {

/// Reads what was typed of a batch against its card, which must be there: every reason at once, each at its
/// field, with what is possible instead; what its verdict says stops it, or asks for the draft's answer. The
/// batch has no number in the book, person or instant yet.
Result<Batch> accept(const State& s, const BatchDraft& draft, const RunCard& made);

/// Why it cannot be mixed: what stops it, at the field "Do not mix"; else, where no answer is given, what
/// asks for one, at the field "Reason".
Refusals why_not(const dough::Verdict& verdict, std::string_view answer);

/// Reads what came of a batch: a dough of 260 degrees, pH 14 and the like are refused at their fields.
Result<BatchResult> accept(const State& s, const ResultDraft& draft);

} // namespace mellowbin::app
