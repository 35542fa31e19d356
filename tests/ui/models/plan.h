#pragma once

#include "app/models/mixer.h"
#include "app/models/plan.h"
#include "app/models/readiness.h"

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
/// The same, with both plans side by side: a part that is better, one that is worse, two runs that move, and
/// what is proven.
app::PlanModel a_compared_week();
/// A week with everything a plan can hold: a frozen run, flour to come, what was possible and forbidden,
/// orders, deliveries, reservations, and a plan in the book that no longer holds.
app::PlanModel a_full_week();
/// The full week with three things supposed, and a plan made with them.
app::PlanModel a_supposed_week();
/// Of its wholemeal run, one of each kind.
app::RunCures some_cures();
/// 1,200 runs of 400 lots on four lines over four weeks, and a proposal that moves 300 of them.
app::PlanModel a_large_plan();
/// `count` runs over four weeks on four lines.
app::PlanModel many_runs(std::size_t count);

/// A batch of pan bread from bags and a silo, with oxidant; three runs today, two batches in, another lot
/// from the seventh on.
app::MixerModel a_batch();
/// The same in pounds and °F, with the oxidant poured from a stock solution; a second person checks it, and
/// of two lots one was scanned.
app::MixerModel a_poured_batch();
/// Every lot was scanned, and nothing stands against the batch.
void let_mix(app::CardModel& card);
/// The same, with a solution that is past its time.
app::MixerModel a_past_solution();
/// A run for which there is no card, for two reasons.
app::MixerModel a_refused_card();

} // namespace mellowbin::test
