
#include "app/plan/held_flour.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace mellowbin::app {
namespace {

Grams unused(const Book& book, const Assignment& a) { return a.mass - book.used_for(a.run, a.lot); }

Grams down_to(Grams mass, double share) {
    return Grams{static_cast<std::int64_t>(std::floor(static_cast<double>(mass.count()) * share))};
}

/// `less` of it, in whole batches where a batch takes one lot alone.
Grams shortened_by(Grams less, Grams has, std::optional<Grams> batch) {
    if (batch && *batch > Grams{0})
        less = Grams{(less.count() + batch->count() - 1) / batch->count() * batch->count()};
    return std::min(has, less);
}

void cut_whole_batches(const Book& book, const Held& held, Grams over, Grams batch) {
    const auto shorten = [&](Grams has, Grams& mass) {
        const Grams less = shortened_by(over, has, batch);
        mass = mass - less;
        over = std::max(Grams{0}, over - less);
    };
    for (auto p = held.promises.rbegin(); p != held.promises.rend(); ++p)
        shorten((*p)->mass, (*p)->mass);
    for (auto a = held.assignments.rbegin(); a != held.assignments.rend(); ++a)
        shorten(unused(book, **a), (*a)->mass);
}

/// For the run, where its concession says for what.
bool is_released(const Book& book, const Assignment& a) {
    const Lot* lot = book.lot(a.lot);
    const Run* run = book.run(a.run);
    const Product* product = run ? book.product(run->product) : nullptr;
    return lot && lot->state == LotState::released &&
           (!product || against_by_concession(*lot, *product, run->day).empty());
}

/// What is open of lots that go into no dough; gives how much was let go.
Grams cut_unreleased(const Book& book, const Held& held, Grams over, std::optional<Grams> batch) {
    Grams all;
    for (auto* a : held.assignments) {
        if (all >= over || is_released(book, *a))
            continue;
        const Grams less = shortened_by(over - all, unused(book, *a), batch);
        a->mass = a->mass - less;
        all += less;
    }
    return all;
}

void cut_in_proportion(const Book& book, const Held& held, Grams open, Grams room) {
    const double share = static_cast<double>(room.count()) / static_cast<double>(open.count());
    Grams left = room;
    for (auto* a : held.assignments) {
        const Grams kept = down_to(unused(book, *a), share);
        a->mass = book.used_for(a->run, a->lot) + kept;
        left = left - kept;
    }
    for (auto* p : held.promises) {
        p->mass = down_to(p->mass, share);
        left = left - p->mass;
    }
    // The grams lost to whole ones go to the largest.
    if (!held.assignments.empty())
        held.assignments.front()->mass += left;
    else if (!held.promises.empty())
        held.promises.front()->mass += left;
}

} // namespace

RunFlour flour_of_runs(const Book& book, std::vector<RunId> runs) {
    const auto of_them = [&](const auto& given) {
        return std::find(runs.begin(), runs.end(), given.run) != runs.end();
    };
    RunFlour all;
    std::copy_if(book.assignments.begin(), book.assignments.end(), std::back_inserter(all.assignments),
                 of_them);
    std::copy_if(book.promises.begin(), book.promises.end(), std::back_inserter(all.promises), of_them);
    all.runs = std::move(runs);
    return all;
}

Held held_by(const Book& book, const Product& product, FlourPart part, RunFlour& plan) {
    Held held;
    const auto belongs = [&](FlourId flour) {
        return part_of(product, flour).value_or(FlourPart::main) == part;
    };
    for (auto& a : plan.assignments) {
        const Lot* lot = book.lot(a.lot);
        if (!lot || !belongs(lot->flour))
            continue;
        held.fixed += a.is_locked ? a.mass : book.used_for(a.run, a.lot);
        if (!a.is_locked)
            held.assignments.push_back(&a);
    }
    for (auto& p : plan.promises)
        if (const auto* delivery = book.delivery(p.delivery); delivery && belongs(delivery->flour))
            held.promises.push_back(&p);
    return held;
}

void cut(const Book& book, const Held& held, Grams room, std::optional<Grams> batch) {
    Grams open;
    for (const auto* a : held.assignments)
        open += unused(book, *a);
    for (const auto* p : held.promises)
        open += p->mass;
    if (open <= room)
        return;
    open = open - cut_unreleased(book, held, open - room, batch);
    if (open <= room)
        return;
    if (batch && *batch > Grams{0})
        cut_whole_batches(book, held, open - room, *batch);
    else
        cut_in_proportion(book, held, open, room);
}

void drop_empty(RunFlour& plan) {
    std::erase_if(plan.assignments, [](const Assignment& a) { return a.mass <= Grams{0}; });
    std::erase_if(plan.promises, [](const Promise& p) { return p.mass <= Grams{0}; });
}

} // namespace mellowbin::app
