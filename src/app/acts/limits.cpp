#include "app/acts/limits.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "db/limit_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

const LimitRow* limit_row(const State& state, std::int64_t id) {
    const auto at = std::find_if(state.book.limits.begin(), state.book.limits.end(),
                                 [&](const LimitRow& row) { return row.id == id; });
    return at == state.book.limits.end() ? nullptr : &*at;
}

std::string about(const LimitRow& row) { return fmt::format("{}, {}", name_of(row.substance), row.market); }

Refusal unknown_row() { return {"Limit", "is not in the book", "Choose one from the list"}; }

} // namespace

Result<Told> carry_out(State& state, const ConfirmLimit& intent) {
    const LimitRow* row = limit_row(state, intent.row);
    if (!row)
        return unknown_row();
    const auto words = fmt::format("Limit confirmed: {} ({})", about(*row), row->source);
    Change change = state.change("confirm_limit", "law " + row->market, words);
    const auto done = LimitStore(*state.connection).confirm(change, intent.row);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: mark it unconfirmed", {DoubtLimit{intent.row}}};
}

Result<Told> carry_out(State& state, const DoubtLimit& intent) {
    const LimitRow* known = limit_row(state, intent.row);
    if (!known)
        return unknown_row();
    LimitRow row = *known;
    row.is_confirmed = false;
    row.confirmed_by.clear();
    const auto words = fmt::format("Limit marked unconfirmed: {}", about(row));
    Change change = state.change("doubt_limit", "law " + row.market, words);
    const auto done = LimitStore(*state.connection).save(change, row);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: confirm it again", {ConfirmLimit{intent.row}}};
}

} // namespace mellowbin::app
