#pragma once

#include "app/models/plan.h"

#include <string>
#include <string_view>

namespace mellowbin::app {

/// What every printed plan begins with, and no other file: such a file may be written over.
inline constexpr std::string_view plan_sheet_head = "<!doctype html>\n<!-- mellowbin: printed plan -->\n";

/// The plan shown, as a page for paper: HTML in UTF-8 that stands for itself (A4 across, black on white, no
/// scripts, nothing from elsewhere). A table a day, then what is short with its cures and what to order.
/// Masses in kg, oxidant in mg/kg of flour, maturity in % (an estimate). `plant` may be empty; `made_at` is
/// told as it is. All words of the book are escaped.
std::string plan_sheet(const PlanModel& model, const std::string& plant, const std::string& made_at);

} // namespace mellowbin::app
