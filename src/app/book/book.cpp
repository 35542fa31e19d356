#include "app/book/book.h"

#include <algorithm>

namespace mellowbin::app {

std::vector<const Retest*> Book::retests_of(LotId lot) const {
    std::vector<const Retest*> found;
    if (const auto at = retests_by_lot_.find(lot.number()); at != retests_by_lot_.end())
        for (const std::size_t i : at->second)
            found.push_back(&retests[i]);
    return found;
}

void Book::index() {
    stock = StockBook(movements);
    movements_by_lot_.clear();
    uses_by_run_.clear();
    for (std::size_t i = 0; i < movements.size(); ++i) {
        movements_by_lot_[movements[i].lot.number()].push_back(i);
        if (movements[i].run)
            uses_by_run_[movements[i].run->number()].push_back(i);
    }
    retests_by_lot_.clear();
    for (std::size_t i = 0; i < retests.size(); ++i)
        retests_by_lot_[retests[i].lot.number()].push_back(i);
    run_places_.clear();
    for (std::size_t i = 0; i < runs.size(); ++i)
        run_places_[runs[i].id.number()] = i;
}

const Run* Book::run(RunId id) const {
    const auto at = run_places_.find(id.number());
    if (at != run_places_.end() && at->second < runs.size() && runs[at->second].id == id)
        return &runs[at->second];
    // Something was supposed of the runs since.
    const auto moved = std::find_if(runs.begin(), runs.end(), [&](const Run& run) { return run.id == id; });
    return moved == runs.end() ? nullptr : &*moved;
}

std::vector<const Movement*> Book::movements_of(LotId lot) const {
    std::vector<const Movement*> found;
    if (const auto at = movements_by_lot_.find(lot.number()); at != movements_by_lot_.end())
        for (const std::size_t i : at->second)
            found.push_back(&movements[i]);
    return found;
}

std::size_t Book::movement_count(LotId lot) const {
    const auto at = movements_by_lot_.find(lot.number());
    return at == movements_by_lot_.end() ? 0 : at->second.size();
}

std::vector<Assignment> Book::assignments_of(RunId run) const {
    std::vector<Assignment> found;
    for (const auto& a : assignments)
        if (a.run == run)
            found.push_back(a);
    return found;
}

std::vector<Promise> Book::promises_of(RunId run) const {
    std::vector<Promise> found;
    for (const auto& p : promises)
        if (p.run == run)
            found.push_back(p);
    return found;
}

Grams Book::used_for(RunId run) const {
    Grams used;
    if (const auto at = uses_by_run_.find(run.number()); at != uses_by_run_.end())
        for (const std::size_t i : at->second)
            used += movements[i].from ? movements[i].mass : -movements[i].mass;
    return used;
}

Grams Book::used_for(RunId run, LotId lot) const {
    Grams used;
    if (const auto at = uses_by_run_.find(run.number()); at != uses_by_run_.end())
        for (const std::size_t i : at->second)
            if (movements[i].lot == lot)
                used += movements[i].from ? movements[i].mass : -movements[i].mass;
    return used;
}

std::map<std::optional<RunId>, Grams> Book::out_of(LotId lot) const {
    std::map<std::optional<RunId>, Grams> out;
    for (const Movement* m : movements_of(lot))
        if (m->kind == MovementKind::use || m->kind == MovementKind::give_back)
            out[m->run] += m->from ? m->mass : -m->mass;
    std::erase_if(out, [](const auto& one) { return one.second <= Grams{0}; });
    return out;
}

std::vector<const Batch*> Book::batches_of(RunId run) const {
    std::vector<const Batch*> found;
    for (const auto& batch : batches)
        if (batch.run == run)
            found.push_back(&batch);
    return found;
}

std::vector<const BagScan*> Book::scans_of(RunId run, int batch) const {
    std::vector<const BagScan*> found;
    for (const auto& scan : scans)
        if (scan.run == run && scan.batch == batch)
            found.push_back(&scan);
    return found;
}

std::optional<PlaceId> Book::said_place(RunId run, LotId lot) const {
    for (const auto& draw : draws)
        if (draw.run == run && draw.lot == lot)
            return draw.place;
    return {};
}

const StockSolution* Book::solution_of(Substance substance) const {
    const StockSolution* newest = nullptr;
    for (const auto& solution : solutions)
        if (solution.substance == substance && !solution.has_ended)
            newest = &solution;
    return newest;
}

int Book::batches_mixed(const Run& run) const {
    int standing = 0;
    bool is_logged = false;
    for (const auto& batch : batches) {
        is_logged |= batch.run == run.id;
        standing += batch.run == run.id && !batch.is_countered ? 1 : 0;
    }
    if (is_logged)
        return standing;
    // A run of before batches were logged: what its flour says.
    if (run.batches <= 0 || run.flour <= Grams{0})
        return 0;
    const double batch = static_cast<double>(run.flour.count()) / run.batches;
    // Half a gram a batch may be lost to whole grams; a tenth of a batch is no batch.
    return static_cast<int>(static_cast<double>(used_for(run.id).count()) / batch + 0.1);
}

std::string Book::name(PlaceId id) const {
    const auto* found = place(id);
    return found ? found->name : "?";
}

} // namespace mellowbin::app
