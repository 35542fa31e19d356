#pragma once

#include "app/models/trace.h"

namespace mellowbin::app {

struct Station;

/// Title, rows, rules and what the law asks, of a trace that was found.
void put_into_words(const Station& station, TraceModel& trace);

/// "2 batches may contain it, 3 dispatches of them" and the like, in one line.
std::string summary_of(const TraceModel& trace);

} // namespace mellowbin::app
