#include "app/acts/limits.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/models/settings.h"
#include "app/models/touched_runs.h"
#include "db/limit_store.h"
#include "db/propionate_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

using AnyRow = RestoreLimit::Row;

template <class Row> std::optional<AnyRow> numbered(const std::vector<Row>& rows, std::int64_t number) {
    const auto at = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == number; });
    return at == rows.end() ? std::nullopt : std::optional<AnyRow>(*at);
}

std::optional<AnyRow> row_of(const Book& book, LimitRef ref) {
    return ref.of == LimitRef::Of::oxidants ? numbered(book.limits, ref.number)
                                            : numbered(book.propionates, ref.number);
}

LimitRef ref_of(const LimitRow& row) { return {LimitRef::Of::oxidants, row.id}; }
LimitRef ref_of(const PropionateRow& row) { return {LimitRef::Of::propionates, row.id}; }
LimitRef ref_of(const AnyRow& any) {
    return std::visit([](const auto& row) { return ref_of(row); }, any);
}

std::string about(const LimitRow& row) { return fmt::format("{}, {}", name_of(row.substance), row.market); }
std::string about(const PropionateRow& row) {
    return fmt::format("Propionate in {}, {}", row.bread, row.market);
}
std::string about(const AnyRow& any) {
    return std::visit([](const auto& row) { return about(row); }, any);
}

std::string source_of(const AnyRow& any) {
    return std::visit([](const auto& row) { return row.source; }, any);
}

std::string figure_of(const AnyRow& any) {
    return std::visit([](const auto& row) { return figure_in_words(row); }, any);
}

bool is_confirmed(const AnyRow& any) {
    return std::visit([](const auto& row) { return row.is_confirmed; }, any);
}

AnyRow confirmed(AnyRow any, bool is_so, const std::string& by) {
    std::visit(
        [&](auto& row) {
            row.is_confirmed = is_so;
            row.confirmed_by = by;
        },
        any);
    return any;
}

template <class Row> void put(std::vector<Row>& rows, const Row& row) {
    std::replace_if(
        rows.begin(), rows.end(), [&](const Row& one) { return one.id == row.id; }, row);
}

/// The runs whose cards differ by it.
std::string touched_by(const State& state, const AnyRow& after) {
    Ruled then = Ruled::by(state.book);
    const auto market = std::visit(
        [&](const auto& row) {
            if constexpr (std::is_same_v<std::decay_t<decltype(row)>, LimitRow>)
                put(then.limits, row);
            else
                put(then.propionates, row);
            return row.market;
        },
        after);
    return touched_in_words(runs_touched(state, then, sold_in(state.book, market)));
}

Result<Done> save(Connection& connection, Change& change, const AnyRow& any) {
    if (const auto* oxidant = std::get_if<LimitRow>(&any)) {
        const auto saved = LimitStore(connection).save(change, *oxidant);
        return saved ? Result<Done>(Done{}) : Result<Done>(saved.refusals());
    }
    PropionateStore(connection).save(change, std::get<PropionateRow>(any));
    return Done{};
}

RecordRef record_of(const AnyRow& any) {
    const auto kind =
        std::holds_alternative<LimitRow>(any) ? RecordKind::limit : RecordKind::propionate_limit;
    return {kind, std::visit([](const auto& row) { return row.id; }, any)};
}

/// Writes the row as it shall be, and names the runs that it touches.
Result<Told> write(State& state, const char* intent, const AnyRow& before, const AnyRow& after,
                   std::string words, const char* undo) {
    words += touched_by(state, after);
    const auto market = std::visit([](const auto& row) { return row.market; }, after);
    Change change = state.change(intent, {"law " + market, record_of(after)}, words);
    if (const auto done = save(*state.connection, change, after); !done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, undo, {RestoreLimit{before, after}}};
}

Refusal unknown_row() { return {"Limit", "is not in the book", "Choose one from the list"}; }

} // namespace

Result<Told> carry_out(State& state, const ConfirmLimit& intent) {
    const auto row = row_of(state.book, intent.row);
    if (!row)
        return unknown_row();
    return write(state, "confirm_limit", *row, confirmed(*row, true, state.setup.person),
                 fmt::format("Limit confirmed: {} ({})", about(*row), source_of(*row)),
                 "Undo: mark it unconfirmed");
}

Result<Told> carry_out(State& state, const DoubtLimit& intent) {
    const auto row = row_of(state.book, intent.row);
    if (!row)
        return unknown_row();
    return write(state, "doubt_limit", *row, confirmed(*row, false, ""),
                 fmt::format("Limit marked unconfirmed: {}", about(*row)), "Undo: confirmed as it was");
}

Result<Told> carry_out(State& state, const ChangeLimit& intent) {
    const auto row = row_of(state.book, intent.row);
    if (!row)
        return unknown_row();
    const auto after = std::visit(
        [&](const auto& one) -> Result<AnyRow> {
            auto typed = changed(one, intent.as);
            return typed ? Result<AnyRow>(*typed) : Result<AnyRow>(typed.refusals());
        },
        *row);
    if (!after)
        return after.refusals();
    ++state.limits_changed;
    if (*after == *row)
        return Told{fmt::format("{}: nothing was changed", about(*row))};
    return write(state, "change_limit", *row, *after,
                 fmt::format("Limit changed: {}: {}, was {} ({}); not confirmed until somebody confirms it",
                             about(*row), figure_of(*after), figure_of(*row), source_of(*after)),
                 "Undo: as it was");
}

Result<Told> carry_out(State& state, const RestoreLimit& intent) {
    const auto row = row_of(state.book, ref_of(intent.after));
    if (!row)
        return unknown_row();
    if (*row != intent.after)
        return Refusal{"Limit", about(*row) + " was changed meanwhile", "Look at it, and change it anew"};
    return write(state, "restore_limit", *row, intent.before,
                 fmt::format("Limit as it was: {}: {}, {}", about(*row), figure_of(intent.before),
                             is_confirmed(intent.before) ? "confirmed" : "not confirmed"),
                 "Undo: as it was changed");
}

} // namespace mellowbin::app
