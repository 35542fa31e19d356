#include "app/plan/freeze.h"

#include "app/book/settings.h"
#include "app/plan/bans.h"
#include "app/plan/expected.h"
#include "app/plan/reserved.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

bool is_near(const Run& run, Day today, Days frozen) { return run.day >= today && run.day < today + frozen; }

/// A run that is short stays open: the flour it lacks must be found.
bool has_all_its_flour(const Book& book, const Run& run) {
    Grams has;
    for (const auto& a : book.assignments_of(run.id))
        has += a.mass;
    for (const auto& p : book.promises_of(run.id))
        has += p.mass;
    return has > Grams{0} && has + few_grams >= run.flour;
}

/// What near runs and those being mixed still want of the lot.
Grams wanted_soon(const Book& book, LotId lot, Day today, Days frozen) {
    Grams wanted;
    for (const auto& a : book.assignments) {
        const Run* run = a.lot == lot ? book.run(a.run) : nullptr;
        if (run && is_near(*run, today, frozen))
            wanted += std::max(Grams{0}, a.mass - book.used_for(a.run, lot));
    }
    return wanted;
}

bool may_still_be_used(const Book& book, const Assignment& a, const Run& run, Day today, Days frozen) {
    const Lot* lot = book.lot(a.lot);
    const Product* product = book.product(run.product);
    if (!lot || !product || lot->state != LotState::released ||
        !against_by_concession(*lot, *product, run.day).empty() ||
        !kept_for_others(book, a.lot, *product).empty() || !law_on(book, *lot, run, *product).is_permitted())
        return false;
    const Grams there = book.stock.total(a.lot) - kept_back(book, a.lot);
    return wanted_soon(book, a.lot, today, frozen) <= there + few_grams;
}

bool comes_in_time(const Book& book, const Promise& promise, const Run& run, Day today) {
    const auto* delivery = book.delivery(promise.delivery);
    return delivery && !delivery->has_come && usable_from(book, *delivery, today) <= run.day;
}

} // namespace

bool is_frozen(const Book& book, const Run& run, Day today) {
    if (book.used_for(run.id) > Grams{0})
        return true;
    const Days frozen{static_cast<int>(Choices(book.settings).number("freeze_days"))};
    if (!is_near(run, today, frozen) || !has_all_its_flour(book, run))
        return false;
    const auto assignments = book.assignments_of(run.id);
    const auto promises = book.promises_of(run.id);
    return std::all_of(assignments.begin(), assignments.end(),
                       [&](const Assignment& a) { return may_still_be_used(book, a, run, today, frozen); }) &&
           std::all_of(promises.begin(), promises.end(),
                       [&](const Promise& p) { return comes_in_time(book, p, run, today); });
}

} // namespace mellowbin::app
