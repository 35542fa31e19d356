#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/widgets/board.h"

#include <cstdint>
#include <optional>
#include <string>

/// Runs and lots carried over the board: what it would do in words, and the intent for it.
namespace mellowbin::views {

/// Whether what is moved changes the book or is only tried on a copy of it.
enum class Tried { in_book, supposed };

/// Null where no run of the days shown has this number.
const app::PlannedRun* run_of(const app::PlanModel& model, std::optional<std::int64_t> id);
/// "Bun on Thu 26 Nov".
std::string words_for(const app::PlannedRun& run);
/// The name of its line; empty where the model has none.
std::string line_of(const app::PlannedRun& run, const app::PlanModel& model);
/// Its place among the runs of its line and day, from 1.
int place_of(const app::PlannedRun& run, const app::PlanModel& model);
/// Neither past nor frozen.
bool may_change(const app::PlannedRun& run);

/// What tells the flours of a run apart on the board: the lot's number, and a delivery's below zero.
std::int64_t share_key(const app::PlannedLot& lot);
const app::PlannedLot* lot_of(const app::PlannedRun& run, std::optional<std::int64_t> key);

/// What letting go here would do. Without a place: what to do to move it.
ui::DropWords judge(const app::PlanModel& model, Tried tried, ui::Carried what, ui::DropPlace where);
/// Of a drop that `judge` would move; none of any other.
std::optional<app::Intent> intent_of(const app::PlanModel& model, Tried tried, ui::Carried what,
                                     ui::DropPlace where);

} // namespace mellowbin::views
