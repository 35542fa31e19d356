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

/// What a lot in a silo does not come without: what has to leave first, or what it is one mixture with.
struct Buried {
    std::string silo;
    std::vector<Layer> below; ///< or beside it
    bool is_mixed = false;
};

/// Flour a plan may draw on: a lot, or a delivery to come as the lot it is expected to be.
struct PlanFlour {
    Lot lot;             ///< of a delivery: what is expected of it; it has no number
    ExpectedId delivery; ///< known of a delivery
    std::shared_ptr<const aging::Estimate> estimate;
    std::optional<Day> past_best;
    std::optional<Day> usable_from; ///< of a delivery: has arrived and been judged by then
    std::vector<Buried> buried;     ///< one for each place it lies in; empty where some can be drawn now
    Grams free = {};                ///< that no run outside the plan has and nobody kept back
    /// Of what a silo gives in one go: the lots that really come, `shares` of each, and by which the book
    /// names it. `lot` then is the first of them under another name.
    std::vector<PlanFlour> holds = {};
    std::vector<double> shares = {};
    std::vector<Layer> named = {};
    PlaceId silo = {};
};

/// Points of maturity with what the mill added counted in, reached with this probability.
double maturity_points(const PlanFlour& flour, double confidence, Day day);
/// That the flour is at least so mature on the day; of a mixture: of its lots, by their shares.
double probability_of(const PlanFlour& flour, Maturity at_least, Day day);

/// A lot of the book; the estimates must outlive what is given back.
PlanFlour flour_of_lot(const Book& book, const Estimates& estimates, LotId lot);
/// All that a plan may draw on.
struct FloursToPlan {
    std::vector<PlanFlour> flours;
    std::vector<std::vector<int>> chains; ///< what silos give, the first to come first; see planning::Problem
};
/// Lots with flour left, or locked to a run of the span, what silos would give, and deliveries to come.
FloursToPlan flours_to_plan(const Book& book, const Estimates& estimates, PlanSpan span);
planning::Lot planned_lot(const Book& book, const PlanFlour& flour, PlanSpan span);

} // namespace mellowbin::app
