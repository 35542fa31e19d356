#pragma once

#include "core/result.h"
#include "planning/make_plan.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin::exchange {

/// Reads a planning instance: a JSON object with horizon, weights, oxidantPointsPerPpm, lots, products and
/// runs as in fixtures/instances; days count from the start of the horizon, masses are tonnes. Falling number
/// is taken in as liquefaction number, because that blends. Beside these, optional: "frozen": true on a run,
/// and "locks": [{"run", "lot", "tonnes"}]. Unknown keys are passed over. Every fault found is refused by
/// name; so are more than four million lots times runs, and a maturity that comes to no number.
Result<planning::Problem> read_instance(std::string_view text);

/// The plan as JSON: assignments by the names of runs and lots, the objective and its parts, what is proven
/// of the whole and of parts, the steps of the search.
std::string write_plan(const planning::Problem& problem, const planning::Outcome& outcome);

} // namespace mellowbin::exchange
