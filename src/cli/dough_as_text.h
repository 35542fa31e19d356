#pragma once

#include "app/models/card.h"
#include "app/models/doughs.h"
#include "app/models/keeping.h"
#include "app/models/ladders.h"
#include "app/models/levers.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace mellowbin::cli {

void print_levers(std::ostream& out, const app::LeversModel& levers);
void print_keeping(std::ostream& out, const app::KeepingModel& keeping);
void print_ladders(std::ostream& out, const std::vector<app::LadderModel>& ladders);
void print_batches(std::ostream& out, const app::CardModel& card);
void print_ingredients(std::ostream& out, const app::DoughRow& dough, const app::DoughsModel& model);
void print_usual(std::ostream& out, const app::DoughsModel& model);

std::string levers_as_json(const app::LeversModel& levers);
std::string keeping_as_json(const app::KeepingModel& keeping);
std::string ladders_as_json(const std::vector<app::LadderModel>& ladders);
std::string batches_as_json(const app::CardModel& card);
std::string ingredients_as_json(const app::DoughRow& dough, const app::DoughsModel& model);
std::string usual_as_json(const app::DoughsModel& model);

} // namespace mellowbin::cli
