#include "app/plan/view.h"

#include "app/plan/expected.h"
#include "app/plan/problem.h"

namespace mellowbin::app {

const PlanFlour* PlanView::flour(LotId lot) {
    if (!book.lot(lot))
        return nullptr;
    const auto at = lots_.find(lot);
    return at != lots_.end() ? &at->second
                             : &lots_.emplace(lot, flour_of_lot(book, estimates, lot)).first->second;
}

const PlanFlour* PlanView::flour(ExpectedId delivery) {
    const auto at = deliveries_.find(delivery);
    if (at != deliveries_.end())
        return &at->second;
    const ExpectedDelivery* expected = book.delivery(delivery);
    if (!expected)
        return nullptr;
    return &deliveries_.emplace(delivery, expectation_of(book, estimates, *expected, today).flour)
                .first->second;
}

const PlanFlour* PlanView::flour(const Given& given) {
    return given.delivery.is_known() ? flour(given.delivery) : flour(given.lot);
}

std::vector<NeedShown> needs_of(PlanView& view, const Run& run, const Product& product,
                                const std::vector<Given>& given) {
    std::vector<NeedShown> needs{{FlourPart::main, grams_of(product, FlourPart::main, run.flour), {}, {}}};
    if (product.second_flour)
        needs.push_back({FlourPart::second, grams_of(product, FlourPart::second, run.flour), {}, {}});
    for (const auto& g : given) {
        const PlanFlour* flour = view.flour(g);
        const auto part = flour ? part_of(product, flour->lot.flour) : std::nullopt;
        needs[part == FlourPart::second ? 1 : 0].given.push_back(g);
    }
    for (auto& need : needs) {
        need.missing = need.need;
        for (const auto& g : need.given)
            need.missing = need.missing - g.mass;
        if (need.missing < few_grams)
            need.missing = Grams{0};
    }
    return needs;
}

double counted_maturity(PlanView& view, const Run& run, const std::vector<Given>& given) {
    double mass = 0;
    double sum = 0;
    for (const auto& g : given) {
        const PlanFlour* flour = view.flour(g);
        if (!flour)
            continue;
        sum += flour->estimate->maturity_at(1 - view.estimates.confidence(), run.day).value() *
               to_kilograms(g.mass).value();
        mass += to_kilograms(g.mass).value();
    }
    return mass > 0 ? sum / mass : 0;
}

} // namespace mellowbin::app
