#pragma once

#include "app/read_models.h"

#include <cstddef>

/// Read-models as the application would make them, for the tests and the frame benchmark of Readiness, Plan
/// and Mixer: an invented bakery on Wed 25 Nov 2026.
namespace mellowbin::test {

Day plan_today();

/// A young lot, a usable, a ready, one to use first, one past its best, a held one; ticks of three runs.
app::ReadinessModel six_lots();
/// As many lots as asked for, with ticks on every seventh.
app::ReadinessModel many_lots(std::size_t count);

/// Two lines over a week: a run with two lots (one locked), one that takes oxidant, one outside a window, one
/// short.
app::PlanModel a_week();
/// The same week as proposed by planning, with what it changes.
app::PlanModel a_proposed_week();
/// `count` runs over four weeks on four lines.
app::PlanModel many_runs(std::size_t count);

/// A batch of pan bread from bags and a silo, with oxidant; three runs today.
app::MixerModel a_batch();
/// A run for which there is no card, for two reasons.
app::MixerModel a_refused_card();

} // namespace mellowbin::test
