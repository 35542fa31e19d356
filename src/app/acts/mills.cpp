#include "app/acts/mills.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "app/models/mill_complaints.h"
#include "core/typed_text.h"
#include "db/complaint_store.h"
#include "db/lot_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

Refusal unknown_complaint() {
    return {"Complaint", "is not in the book", "Choose one from the mill's record"};
}

/// Twelve months, the same day of the year before included.
Day year_before(Day day) {
    const auto before = date::year_month_day{day} - date::years{1};
    return before.ok() ? Day{before} : Day{before.year() / before.month() / date::last};
}

std::optional<MillRecordQuery> read_query(const State& state, const ShowMillRecord& act, Refusals& refusals) {
    DraftReader reader;
    const Day until = reader.day("To", act.to).value_or(state.today());
    const Day from = reader.day("From", act.from).value_or(year_before(until));
    if (reader.refusals.empty() && from > until)
        reader.refuse("From", fmt::format("{} was read, which is after {}", iso(from), iso(until)),
                      "Exchange the two days, or correct one");
    refusals = std::move(reader.refusals);
    return refusals.empty() ? std::optional(MillRecordQuery{act.mill, from, until, std::max(0, act.page)})
                            : std::nullopt;
}

/// The mill's lot of this number, whatever its capitals, however long ago.
std::optional<LotId> lot_of(const State& state, const Mill& mill, const std::string& typed,
                            Refusals& refusals) {
    const auto code = trimmed(typed);
    if (code.empty())
        return {};
    const LotStore lots(*state.connection);
    if (const auto exact = lots.find(mill.id, code))
        return exact->id;
    for (const auto id : lots.of_code(code))
        if (const auto lot = lots.find(id); lot && lot->mill == mill.id)
            return id;
    refusals.push_back({"Lot", fmt::format("{} has no lot \"{}\"", mill.name, excerpt(code)),
                        "Check the number, or leave it empty"});
    return {};
}

/// The complaint with its mill and the lot it names, for the journal.
struct Held {
    Complaint complaint;
    const Mill* mill = nullptr;
    std::optional<Lot> lot;
    [[nodiscard]] std::string words() const { return in_words(complaint, lot ? lot->code : ""); }
};

std::optional<Held> find(const State& state, ComplaintId id) {
    auto complaint = ComplaintStore(*state.connection).find(id);
    const Mill* mill = complaint ? state.book.mill(complaint->mill) : nullptr;
    if (!mill)
        return {};
    Held found{*std::move(complaint), mill, {}};
    if (found.complaint.lot)
        found.lot = LotStore(*state.connection).find(*found.complaint.lot);
    return found;
}

/// What a line of the journal is about: the complaint, once it has a number.
Subject subject_of(const Held& held) { return {"mill " + held.mill->name, record_of(held.complaint.id)}; }

/// The lot's history has it, too.
void tell_lot(const State& state, Change& change, const Held& held) {
    const auto& line = change.journal_line();
    if (held.lot)
        change.also(state.journal_line(line.intent, app::subject_of(*held.lot), line.words));
}

/// `id` was looked at here.
Told told(State& state, ComplaintId id, std::string words, std::string undo = {}, Intents undoing = {}) {
    state.look_at(record_of(id));
    ++state.complaints_changed;
    return Told{std::move(words), Touched::mill_record, std::move(undo), std::move(undoing)};
}

} // namespace

Result<Told> carry_out(State& state, const ShowMillRecord& act) {
    // What another station changed was read until now.
    if (state.plant.mill_record)
        for (const auto& row : state.plant.mill_record->complaints)
            state.look_at(record_of(row.id));
    if (!state.book.mill(act.mill)) {
        state.mill_record.reset();
        return Told{"", Touched::mill_record};
    }
    Refusals refusals;
    const auto query = read_query(state, act, refusals);
    if (!query)
        return refusals;
    state.mill_record = query;
    return Told{"", Touched::mill_record};
}

Result<Told> carry_out(State& state, const LogComplaint& act) {
    const Mill* mill = state.book.mill(act.mill);
    if (!mill)
        return Refusal{"Mill", "is not in the book", "Choose one from the list"};
    Refusals refusals;
    const auto lot = lot_of(state, *mill, act.complaint.lot, refusals);
    auto complaint = accept(act.complaint, state.today());
    if (!complaint)
        append(refusals, complaint.refusals());
    if (!refusals.empty())
        return refusals;
    Held found{*std::move(complaint), mill, {}};
    found.complaint.mill = mill->id;
    found.complaint.lot = lot;
    if (lot)
        found.lot = LotStore(*state.connection).find(*lot);
    const auto words = fmt::format("Complaint to {}: {}", mill->name, found.words());
    Change change = state.change("log_complaint", subject_of(found), words);
    const auto id = ComplaintStore(*state.connection).log(change, found.complaint);
    if (!id)
        return change.refuse(id.refusals());
    change.journal_line().about = record_of(*id);
    tell_lot(state, change, found);
    change.commit();
    return told(state, *id, words, "Undo: withdraw the complaint", {WithdrawComplaint{*id, "taken back"}});
}

Result<Told> carry_out(State& state, const AnswerComplaint& act) {
    const auto found = find(state, act.complaint);
    if (!found)
        return unknown_complaint();
    const auto answer = accept(act.answer, found->complaint, state.today());
    if (!answer)
        return answer.refusals();
    const auto words =
        fmt::format("{} answered the complaint \"{}\": {}", found->mill->name, found->words(), answer->words);
    Change change = state.change("answer_complaint", subject_of(*found), words);
    tell_lot(state, change, *found);
    const auto done = ComplaintStore(*state.connection).answer(change, act.complaint, *answer);
    if (!done)
        return done.refusals();
    change.commit();
    return told(state, act.complaint, words, "Undo: it is not answered",
                {TakeBackAnswer{act.complaint, "taken back"}});
}

Result<Told> carry_out(State& state, const TakeBackAnswer& act) {
    const auto found = find(state, act.complaint);
    if (!found)
        return unknown_complaint();
    const std::string reason(trimmed(act.reason));
    if (reason.empty())
        return no_reason();
    const auto words =
        fmt::format("{} did not answer the complaint \"{}\": {}", found->mill->name, found->words(), reason);
    Change change = state.change("take_back_answer", subject_of(*found), words);
    tell_lot(state, change, *found);
    const auto done = ComplaintStore(*state.connection).take_answer_back(change, act.complaint, reason);
    if (!done)
        return done.refusals();
    change.commit();
    if (!found->complaint.answer)
        return told(state, act.complaint, words);
    const auto& was = *found->complaint.answer;
    return told(state, act.complaint, words, "Undo: it is answered as before",
                {AnswerComplaint{act.complaint, {was.words, iso(was.answered_on)}}});
}

Result<Told> carry_out(State& state, const WithdrawComplaint& act) {
    const auto found = find(state, act.complaint);
    if (!found)
        return unknown_complaint();
    const std::string reason(trimmed(act.reason));
    if (reason.empty())
        return no_reason();
    const auto words =
        fmt::format("Complaint to {} withdrawn, \"{}\": {}", found->mill->name, found->words(), reason);
    Change change = state.change("withdraw_complaint", subject_of(*found), words);
    tell_lot(state, change, *found);
    const auto done = ComplaintStore(*state.connection).withdraw(change, act.complaint, reason);
    if (!done)
        return done.refusals();
    change.commit();
    return told(state, act.complaint, words);
}

Result<Told> carry_out(State& state, const AskWhetherToTest& act) {
    Refusals not_known;
    const Mill* mill = named(state.book.mills, "Mill", act.mill, not_known);
    const Flour* flour = named(state.book.flours, "Flour", act.flour, not_known);
    state.lot_to_come.reset();
    state.intake.own_test = {};
    if (mill && flour && !act.code.empty()) {
        state.lot_to_come = LotToCome{mill->id, flour->id, act.code};
        state.intake.own_test = own_test_advice(state, *state.lot_to_come);
    }
    return Told{""};
}

} // namespace mellowbin::app
