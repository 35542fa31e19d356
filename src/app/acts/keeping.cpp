#include "app/acts/keeping.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "core/decimal.h"
#include "core/draft_reader.h"
#include "core/typed_text.h"
#include "db/bake_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

Result<KeepingRecord> read_record(const State& state, const KeepingDraft& draft) {
    DraftReader reader;
    KeepingRecord record;
    record.product = reader.known<Product>("Product", draft.product, state.book.products);
    const auto kind = keeping_kind_from_key(trimmed(draft.kind));
    if (!kind)
        reader.refuse("Record", fmt::format("\"{}\" was read", excerpt(draft.kind)),
                      "Choose one of: mould, firmness");
    record.kind = kind.value_or(KeepingKind::mould);
    record.baked_on = read_past_day(reader, "Baked on", draft.baked_on, state.today());
    record.days = static_cast<int>(
        std::lround(reader.required_number("Days", draft.days, {0, 400, "days after the bake"})));
    if (reader.refusals.empty() && record.baked_on + Days{record.days} > state.today())
        reader.refuse("Days",
                      fmt::format("{} days after {} is still to come", record.days, iso(record.baked_on)),
                      "Log what was seen, not what is expected");
    if (record.kind == KeepingKind::firmness) {
        record.firmness_g = reader.required_number("Firmness", draft.firmness, {1, 20'000, "g"});
    } else if (draft.finding == "mould" || draft.finding == "none") {
        record.mould_seen = draft.finding == "mould";
    } else {
        reader.refuse("Finding", fmt::format("\"{}\" was read", excerpt(draft.finding)),
                      "Choose one of: none, mould");
    }
    record.ph = reader.number("pH", draft.ph, {3, 8, ""});
    record.note = trimmed(draft.note);
    if (!reader.refusals.empty())
        return reader.refusals;
    return record;
}

std::string words_of(const KeepingRecord& record) {
    if (record.kind == KeepingKind::firmness)
        return fmt::format("firmness {:g} g on day {}", record.firmness_g, record.days);
    return fmt::format("{} on day {}", record.mould_seen ? "mould" : "no mould", record.days);
}

} // namespace

Result<Told> carry_out(State& state, const LogKeeping& intent) {
    const auto record = read_record(state, intent.record);
    if (!record)
        return record.refusals();
    const Product* product = state.book.product(record->product);
    const auto words =
        fmt::format("{} baked {}: {}", product->name, short_day(record->baked_on), words_of(*record));
    Change change = state.change("log_keeping", subject_of(*product), words);
    const auto id = BakeStore(*state.connection).log(change, *record);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    ++state.batches_logged;
    return Told{words, Touched::nothing, "Undo: withdraw the record", {WithdrawKeeping{*id, "taken back"}}};
}

Result<Told> carry_out(State& state, const WithdrawKeeping& intent) {
    const auto at = std::find_if(state.book.keeping.begin(), state.book.keeping.end(),
                                 [&](const KeepingRecord& record) { return record.id == intent.record; });
    const Product* product = at == state.book.keeping.end() ? nullptr : state.book.product(at->product);
    if (!product)
        return Refusal{"Record", "is not in the book", "Choose one from the list"};
    const std::string reason(trimmed(intent.reason));
    if (reason.empty())
        return no_reason();
    const auto words = fmt::format("{} baked {}: {} withdrawn: {}", product->name, short_day(at->baked_on),
                                   words_of(*at), reason);
    Change change = state.change("withdraw_keeping", subject_of(*product), words);
    const auto done = BakeStore(*state.connection).withdraw(change, intent.record, reason);
    if (!done)
        return done.refusals();
    change.commit();
    ++state.batches_logged;
    return Told{words};
}

} // namespace mellowbin::app
