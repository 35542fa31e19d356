#pragma once

#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/plan/given.h"
#include "app/plan/lots.h"

#include <map>
#include <optional>
#include <tuple>
#include <vector>

namespace mellowbin::app {

/// A book as the plan's read-model looks at it, with every flour looked up once. Book and estimates must
/// outlive it.
class PlanView {
public:
    PlanView(const Book& seen, const Estimates& lot_estimates, Day now)
        : book(seen), estimates(lot_estimates), today(now) {}

    const Book& book;
    const Estimates& estimates;
    Day today;

    /// Null where the book has neither lot nor delivery of it.
    const PlanFlour* flour(const Given& given);
    const PlanFlour* flour(LotId lot);
    const PlanFlour* flour(ExpectedId delivery);
    /// Latest day on which new flour of this kind can come and be released and mature, at the confidence set,
    /// for a run on a day; none: not ever. Never later than the run; may lie before today.
    std::optional<Day> latest_arrival(FlourId flour, Maturity target, Day run_day);

private:
    std::map<LotId, PlanFlour> lots_;
    std::map<ExpectedId, PlanFlour> deliveries_;
    std::map<std::tuple<FlourId, double, Day>, std::optional<Day>> arrivals_;
};

/// One kind of flour that a run asks for, and what it gets of it.
struct NeedShown {
    FlourPart part = FlourPart::main;
    Grams need, missing;
    std::vector<Given> given;
};
/// One for each kind of flour of the product's formula. Flour of neither kind stands with the first.
std::vector<NeedShown> needs_of(PlanView& view, const Run& run, const Product& product,
                                const std::vector<Given>& given);

/// Maturity of a need's flour as the plan counts it, by mass: 0 to 1; 0 without flour.
double counted_maturity(PlanView& view, const Run& run, const std::vector<Given>& given);

} // namespace mellowbin::app
