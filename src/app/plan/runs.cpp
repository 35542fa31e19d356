#include "app/plan/runs.h"

#include "app/plan/freeze.h"
#include "app/plan/units.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin::app {
namespace {

planning::Window planned_window(const Specification& windows, Property property) {
    planning::Window planned;
    for (const auto& window : windows) {
        if (window.property != property)
            continue;
        if (property != Property::falling_number)
            return {window.low, window.high, window.half_width()};
        // The liquefaction number falls as the falling number rises: the ends change places.
        if (window.high)
            planned.low = liquefaction(*window.high);
        if (window.low)
            planned.high = liquefaction(*window.low);
        const double low = planned.low.value_or(liquefaction(400));
        const double high = planned.high.value_or(liquefaction(200));
        planned.scale = std::max((high - low) / 2, 1.0);
        return planned;
    }
    return planned;
}

RunOxidant run_oxidant(const Book& book, const Product& product, Day day) {
    if (!product.oxidant)
        return {};
    const dough::Law law{book.limits, book.markets};
    RunOxidant oxidant;
    oxidant.room = dough::room_for(law, {product.market, product.food, day}, *product.oxidant, {},
                                   product.house_maximum);
    return oxidant;
}

/// "Pan bread", or "Mixed loaf (Rye)" where the formula takes two kinds of flour.
std::string with_flour(const Book& book, const std::string& name, const Product& product, FlourPart part) {
    if (!product.second_flour)
        return name;
    const Flour* flour = book.flour(flour_of(product, part));
    return fmt::format("{} ({})", name, flour ? flour->name : "?");
}

planning::Product planned_product(const Book& book, const Product& product, FlourPart part,
                                  const RunOxidant& oxidant) {
    planning::Product planned;
    planned.name = with_flour(book, product.name, product, part);
    for (const Property property : planned_properties)
        planned.windows.push_back(planned_window(windows_of(product, part), property));
    planned.max_lots = product.most_lots;
    planned.one_lot_a_batch = product.one_lot_a_batch;
    planned.min_share = product.least_share;
    const bool has_strength = has_target(book, product, part);
    planned.maturity_target_points = has_strength ? product.maturity_target.value() * 100 : 0;
    const bool may = has_strength && product.oxidant && dough::is_dosed_by_maturity(*product.oxidant) &&
                     oxidant.room.permission == dough::Permission::permitted && oxidant.room.most;
    planned.oxidant = may ? planning::OxidantPolicy::allowed : planning::OxidantPolicy::forbidden;
    // Without leave to add, the mill's own part is judged lot by lot (see Bans), not by this cap.
    planned.oxidant_cap_ppm = may ? oxidant.room.most->value() : 1e6;
    return planned;
}

/// A tonne short counts a tenth more on the first day of the span than on the last. Where flour lacks anyway,
/// the shortage then falls on a later day, when there is more time to cure it; a tenth is too little to
/// outweigh any tonne that could be had.
double urgency_on(Day day, PlanSpan span) {
    constexpr double of_the_first_day = 0.1;
    if (span.days < 2)
        return 1;
    const double left = span.days - 1 - day_of(day, span);
    return 1 + of_the_first_day * std::clamp(left / (span.days - 1), 0.0, 1.0);
}

/// The run before on a line, kept for each of a formula's flours: a change of the second flour's lot is one
/// against the last run there that took a second flour.
class LastOnLine {
public:
    int exchange(LineId line, FlourPart part, int run) {
        const auto [at, is_first] = last_.try_emplace({line, part}, run);
        return is_first ? -1 : std::exchange(at->second, run);
    }

private:
    std::map<std::pair<LineId, FlourPart>, int> last_;
};

void add_need(const Book& book, const Run& run, const Product& product, FlourPart part, LastOnLine& last,
              PlanProblem& p) {
    const Grams need = grams_of(product, part, run.flour);
    if (need <= Grams{0})
        return;
    planning::Run planned;
    planned.id = with_flour(book, run.code, product, part);
    planned.day = day_of(run.day, p.span);
    planned.shift = run.sequence;
    planned.line = static_cast<int>(run.line.number());
    planned.demand_t = tonnes(need);
    planned.product = static_cast<int>(p.problem.products.size());
    planned.prev_on_line = last.exchange(run.line, part, static_cast<int>(p.problem.runs.size()));
    planned.batch_t = product.one_lot_a_batch ? planned.demand_t / std::max(run.batches, 1) : 0;
    planned.urgency = urgency_on(run.day, p.span);
    if (is_frozen(book, run, p.span.today))
        planned.state = planning::RunState::frozen;
    p.oxidants.push_back(run_oxidant(book, product, run.day));
    p.problem.products.push_back(planned_product(book, as_baked(product, run), part, p.oxidants.back()));
    p.problem.runs.push_back(std::move(planned));
    p.runs.push_back(run.id);
    p.parts.push_back(part);
    p.needs.push_back(need);
}

} // namespace

bool has_target(const Book& book, const Product& product, FlourPart part) {
    if (part == FlourPart::main)
        return true;
    const Flour* first = book.flour(product.flour);
    const Flour* second = book.flour(product.second_flour->flour);
    return first && second && first->flour_class == second->flour_class;
}

void fill_runs(const Book& book, PlanProblem& p) {
    LastOnLine last;
    for (const auto& run : book.runs) {
        const Product* product = book.product(run.product);
        if (!product || run.day < p.span.today || !p.span.holds(run.day))
            continue;
        add_need(book, run, *product, FlourPart::main, last, p);
        if (product->second_flour)
            add_need(book, run, *product, FlourPart::second, last, p);
    }
}

} // namespace mellowbin::app
