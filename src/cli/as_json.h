#pragma once

#include "app/models/card.h"
#include "app/models/journal.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"

#include <span>
#include <string>

/// The same read-models as JSON. Keys carry their units; a missing value is null; days are ISO 8601.
namespace mellowbin::cli {

std::string lots_as_json(const app::LotsModel& lots);
std::string past_lots_as_json(const app::PastLotsModel& past);
std::string readiness_as_json(const app::ReadinessModel& readiness);
std::string plan_as_json(const app::PlanModel& plan);
std::string orders_as_json(const app::PlanModel& plan);
std::string cards_as_json(std::span<const app::CardModel> cards);
std::string journal_as_json(std::span<const app::JournalRow> journal);
std::string test_precision_as_json(std::span<const app::PrecisionLine> rows);
std::string limits_as_json(std::span<const app::LimitLine> limits);

} // namespace mellowbin::cli
