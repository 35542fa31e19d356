#include "app/acts/assignments.h"

#include "app/acts/state.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// Only a plan that has the run on its line and day may be locked.
Result<Told> set_lock(State& state, RunId run_id, LotId lot_id, Lock lock) {
    const Run* run = state.book.run(run_id);
    const Lot* lot = state.book.lot(lot_id);
    if (!run || !lot)
        return Refusal{"Assignment", "is not in the book", "Choose a run and one of its lots"};
    const bool locks = lock == Lock::locked;
    const Product* product = state.book.product(run->product);
    const auto against = product ? against_by_concession(*lot, *product, run->day) : std::string();
    if (locks && !against.empty())
        return Refusal{"Lot", fmt::format("{} cannot be locked to {}: {}", lot->code, run->code, against),
                       "Have quality judge it anew, or choose another lot"};
    const auto words =
        fmt::format("Lot {} {} run {}", lot->code, locks ? "locked to" : "unlocked from", run->code);
    Change change = state.change(locks ? "lock_assignment" : "unlock_assignment", subject_of(*run), words);
    const auto done = RunStore(*state.connection).set_lock(change, run_id, lot_id, lock);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    Intents undoing;
    if (locks)
        undoing.push_back(UnlockAssignment{run_id, lot_id});
    else
        undoing.push_back(LockAssignment{run_id, lot_id});
    return Told{words, Touched::nothing, locks ? "Undo: unlock" : "Undo: lock", std::move(undoing)};
}

} // namespace

Result<Told> carry_out(State& state, const LockAssignment& intent) {
    return set_lock(state, intent.run, intent.lot, Lock::locked);
}

Result<Told> carry_out(State& state, const UnlockAssignment& intent) {
    return set_lock(state, intent.run, intent.lot, Lock::open);
}

Result<Told> carry_out(State& state, const RestoreAssignments& intent) {
    Change change = state.change("restore_assignments", "plan", "The plan before was put back");
    std::vector<Assignment> open;
    for (const auto& a : intent.assignments)
        if (!a.is_locked)
            open.push_back(a);
    const auto done =
        RunStore(*state.connection).replace_assignments(change, intent.runs, open, intent.promises);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{"The plan before was put back"};
}

RestoreAssignments as_they_stand(const Book& book, std::vector<RunId> runs) {
    return {flour_of_runs(book, std::move(runs))};
}

Intents putting_back(RestoreAssignments before, const std::vector<Assignment>& after, LotId lot) {
    Intents acts;
    for (const auto& a : after)
        if (a.lot == lot && a.is_locked)
            acts.push_back(UnlockAssignment{a.run, lot});
    std::vector<LockAssignment> locked;
    for (auto& a : before.assignments) {
        if (a.lot != lot || !a.is_locked)
            continue;
        a.is_locked = false;
        locked.push_back({a.run, lot});
    }
    acts.push_back(std::move(before));
    acts.insert(acts.end(), locked.begin(), locked.end());
    return acts;
}

} // namespace mellowbin::app
