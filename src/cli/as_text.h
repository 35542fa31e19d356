#pragma once

#include "app/models/card.h"
#include "app/models/journal.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/plan_compare.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"

#include <iosfwd>
#include <span>

/// The read-models as text for a terminal or a printer: what a screen says, readable aloud.
namespace mellowbin::cli {

void print_lots(std::ostream& out, const app::LotsModel& lots);
void print_past_lots(std::ostream& out, const app::PastLotsModel& past);
void print_readiness(std::ostream& out, const app::ReadinessModel& readiness);
/// The whole of a plan: runs with their lots and reasons, shortages, orders, and the comparison where there
/// is one.
void print_plan(std::ostream& out, const app::PlanModel& plan);
void print_orders(std::ostream& out, const app::PlanModel& plan);
void print_comparison(std::ostream& out, const app::PlanComparison& comparison);
void print_card(std::ostream& out, const app::CardModel& card);
void print_journal(std::ostream& out, std::span<const app::JournalRow> journal);
void print_test_precision(std::ostream& out, std::span<const app::PrecisionLine> rows);
void print_limits(std::ostream& out, std::span<const app::LimitLine> limits);

} // namespace mellowbin::cli
