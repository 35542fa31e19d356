#include "app/acts/test_precision.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/typed_text.h"
#include "db/test_precision_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

Refusal unknown_row() { return {"Row", "is none of the plant's own", "Choose one from the list"}; }

/// "Protein by ISO 20483"
std::string about(const TestPrecision& row) {
    const std::string name(traits(row.property).name);
    return row.methods.empty() ? name : fmt::format("{} by {}", name, in_one(row.methods));
}

Subject subject_of(const TestPrecision& row) {
    return {"test precision of " + lower_case(traits(row.property).name),
            {RecordKind::test_precision, row.id}};
}

const TestPrecision* row_of(const Book& book, std::int64_t id) {
    const auto at = std::find_if(book.precision.begin(), book.precision.end(),
                                 [&](const TestPrecision& row) { return row.id == id; });
    return at == book.precision.end() ? nullptr : &*at;
}

/// Another row of the plant for the same property, method and range would never be asked.
bool is_there_twice(const Book& book, const TestPrecision& row) {
    return std::any_of(book.precision.begin(), book.precision.end(), [&](const TestPrecision& other) {
        return other.id != row.id && other.property == row.property && other.methods == row.methods &&
               other.low == row.low && other.high == row.high;
    });
}

} // namespace

Result<Told> carry_out(State& state, const SetTestPrecision& act) {
    const TestPrecision* was = act.row == 0 ? nullptr : row_of(state.book, act.row);
    if (act.row != 0 && !was)
        return unknown_row();
    auto row = accept(act.as);
    if (!row)
        return row.refusals();
    row->id = act.row;
    if (is_there_twice(state.book, *row))
        return Refusal{"Method", fmt::format("{} is in the list already", about(*row)),
                       "Change that row, or say for which range this one is"};
    const auto before = was ? std::optional(*was) : std::nullopt;
    const auto words = fmt::format("Test precision, {}: {}{}, {}", about(*row), limits_in_words(*row),
                                   before ? ", was " + limits_in_words(*before) : std::string(), row->source);
    Change change = state.change("set_test_precision", subject_of(*row), words);
    row->id = TestPrecisionStore(*state.connection).save(change, *row);
    change.journal_line().about = RecordRef{RecordKind::test_precision, row->id};
    const auto after = TestPrecisionStore(*state.connection).find(row->id);
    change.commit();
    ++state.precision_changed;
    return Told{words,
                Touched::nothing,
                before ? "Undo: the row as it was" : "Undo: without this row",
                {RestoreTestPrecision{before, after}}};
}

Result<Told> carry_out(State& state, const DropTestPrecision& act) {
    const TestPrecision* was = row_of(state.book, act.row);
    if (!was)
        return unknown_row();
    const TestPrecision before = *was;
    const auto words = fmt::format("Test precision, {}: the plant's own row dropped, {}", about(before),
                                   limits_in_words(before));
    Change change = state.change("drop_test_precision", subject_of(before), words);
    TestPrecisionStore(*state.connection).remove(change, before.id);
    change.commit();
    return Told{words, Touched::nothing, "Undo: the row as it was", {RestoreTestPrecision{before, {}}}};
}

Result<Told> carry_out(State& state, const RestoreTestPrecision& act) {
    const auto& known = act.before ? act.before : act.after;
    if (!known)
        return unknown_row();
    const TestPrecision* now = row_of(state.book, known->id);
    if ((now ? std::optional(*now) : std::nullopt) != act.after)
        return Refusal{"Row", "was changed meanwhile", "Look at it again"};
    const auto words = act.before ? fmt::format("Test precision, {}: as it was, {}", about(*act.before),
                                                limits_in_words(*act.before))
                                  : fmt::format("Test precision, {}: taken back", about(*act.after));
    Change change = state.change("restore_test_precision", subject_of(*known), words);
    TestPrecisionStore store(*state.connection);
    if (act.before)
        store.save(change, *act.before);
    else
        store.remove(change, act.after->id);
    change.commit();
    ++state.precision_changed;
    return Told{words};
}

} // namespace mellowbin::app
