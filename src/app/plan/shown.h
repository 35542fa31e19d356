#pragma once

#include "app/models/read_models.h"
#include "app/plan/parts.h"
#include "app/plan/work.h"

#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

/// The parts that the plan's read-model is put together from.
namespace mellowbin::app {

/// What a planned run gets, from the book or from a proposal: flour of a lot, or of a delivery to come.
struct Given {
    LotId lot;
    ExpectedId delivery;
    Grams mass;
    bool is_locked = false;
    std::string reason;
};
using GivenByRun = std::map<RunId, std::vector<Given>>;

GivenByRun given_by_book(const Book& book);
/// The proposal in the place of what the book has for its runs, frozen ones aside.
GivenByRun given_by(const Book& book, const ProposedPlan& plan);
/// "1200 kg W24-118 + 300 kg W24-121 (locked)"; "nothing".
std::string in_words(const Book& book, const std::vector<Given>& given);
/// The same lots and deliveries with the same grams, in whatever order.
bool is_same(const std::vector<Given>& a, const std::vector<Given>& b);

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

/// The run as the screen shows it, judged need by need.
PlannedRun planned_run(PlanView& view, const Run& run, const std::vector<Given>& given);

/// Maturity of a need's flour as the plan counts it, by mass: 0 to 1; 0 without flour.
double counted_maturity(PlanView& view, const Run& run, const std::vector<Given>& given);

/// What people read of two plans side by side.
PlanComparison comparison_shown(const Book& book, const ProposedPlan& plan);

/// Every reason why the book's plan for these days holds no longer, a sentence each without its stop; empty
/// where it holds or where nothing is planned. Looks at the assignments only, not at every lot for every run.
std::vector<std::string> why_no_longer(PlanView& view, PlanSpan span);

/// Missing flour of the runs shown: what to order, how much, until when, and what it costs later.
std::vector<OrderAdvice> orders_shown(PlanView& view, const PlanModel& model, const GivenByRun& given);
/// A sentence for each run that is short: how much, from when, what would cure it.
std::vector<std::string> shortages_shown(PlanView& view, const PlanModel& model, const GivenByRun& given);

} // namespace mellowbin::app
