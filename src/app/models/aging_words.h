#pragma once

#include "aging/fat_acidity.h"
#include "app/book/estimates.h"
#include "app/book/station.h"
#include "app/models/outlook.h"
#include "app/models/story.h"

#include <string>
#include <vector>

namespace mellowbin::app {

DaySpread shown(const aging::DaySpread& spread);
Readiness shown(aging::Readiness readiness);
Advice shown(aging::Advice advice);

/// "narrows the ready date from 41 to about 29 days"
std::string worth_words(const aging::RetestWorth& worth);
/// "24.0 °C: ready 9 days sooner, past its best 40 days sooner"
std::string elsewhere_words(double mean_temperature, const aging::Turns& here, const aging::Turns& there);
std::string fat_acidity_words(const aging::FatAcidityLine& line);
/// Where each number of a lot's estimate comes from.
std::vector<Origin> origins_of(const Station& s, const Lot& lot, const LotEvidence& made);

} // namespace mellowbin::app
