#pragma once

#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/plan/problem.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Flour that a plan may draw on.
namespace mellowbin::app {

/// What has to leave a silo before a lot in it can.
struct Buried {
    std::string silo;
    std::vector<Layer> below;
};

/// Flour a plan may draw on: a lot, or a delivery to come as the lot it is expected to be.
struct PlanFlour {
    Lot lot;             ///< of a delivery: what is expected of it; it has no number
    ExpectedId delivery; ///< known of a delivery
    std::shared_ptr<const aging::Estimate> estimate;
    std::optional<Day> past_best;
    std::optional<Day> usable_from; ///< of a delivery: has arrived and been judged by then
    std::vector<Buried> buried;     ///< one for each place it lies in; empty where some can be drawn now
};

/// A lot of the book; the estimates must outlive what is given back.
PlanFlour flour_of_lot(const Book& book, const Estimates& estimates, LotId lot);
/// Lots with flour left, or locked to a run of the span, and deliveries to come.
std::vector<PlanFlour> flours_to_plan(const Book& book, const Estimates& estimates, PlanSpan span);
planning::Lot planned_lot(const Book& book, const PlanFlour& flour, PlanSpan span);

} // namespace mellowbin::app
