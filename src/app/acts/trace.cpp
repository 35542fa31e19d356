#include "app/acts/trace.h"

#include "app/acts/intent.h"
#include "app/acts/lots.h"
#include "app/acts/state.h"
#include "app/acts/trace_typed.h"
#include "app/book/fields.h"
#include "app/models/trace_words.h"
#include "core/counted.h"
#include "core/typed_text.h"
#include "db/drill_store.h"
#include "db/lot_store.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <chrono>

namespace mellowbin::app {
namespace {

/// The lot of this number, or of MILL/NUMBER where more than one mill has it.
LotId read_lot(const State& state, const std::string& typed, Refusals& refusals) {
    const auto words = std::string(trimmed(typed));
    std::vector<LotId> found = LotStore(*state.connection).of_code(words);
    if (const auto slash = words.find('/'); found.empty() && slash != std::string::npos)
        for (const auto& mill : state.book.mills)
            if (mill.name == trimmed(std::string_view(words).substr(0, slash)))
                if (const auto lot = LotStore(*state.connection)
                                         .find(mill.id, trimmed(std::string_view(words).substr(slash + 1))))
                    found.push_back(lot->id);
    if (found.size() == 1)
        return found.front();
    if (words.empty())
        refusals.push_back({"Lot", "is empty", "Enter the number of a lot"});
    else if (found.empty())
        refusals.push_back(
            {"Lot", fmt::format("\"{}\" is not in the book", excerpt(words)), "Look for it with Search"});
    else
        refusals.push_back({"Lot", fmt::format("\"{}\" came from {} mills", excerpt(words), found.size()),
                            "Enter it as mill/number"});
    return {};
}

RunId read_run(const State& state, const std::string& typed, Refusals& refusals) {
    const auto code = trimmed(typed);
    if (const auto run = RunStore(*state.connection).find(code))
        return run->id;
    refusals.push_back({"Run",
                        code.empty() ? "is empty" : fmt::format("\"{}\" is not in the book", excerpt(code)),
                        "Enter the code of a run"});
    return {};
}

/// Retired ones too: what was made of them stays.
ProductId read_product(const State& state, const std::string& typed, Refusals& refusals) {
    const auto name = trimmed(typed);
    for (const auto& product : state.book.products)
        if (product.name == name)
            return product.id;
    named(state.book.products, "Product", std::string(name), refusals);
    return {};
}

std::string asked_in_words(const TraceTyped& typed, const TraceQuery& query) {
    const auto day = query.asks == TraceOf::product || query.asks == TraceOf::customer ? ", " + iso(query.day)
                                                                                       : std::string();
    return fmt::format("{} {}{}", key_of(query.asks), trimmed(typed.of), day);
}

/// What of a trace no hold reaches: it was baked, or it left.
std::string beyond_hold(const TraceModel& trace) {
    std::string words;
    for (const auto& batch : trace.batches)
        words += fmt::format("{}{}/{}", words.empty() ? "batches " : ", ", batch.batch.run_code,
                             batch.batch.number);
    std::string sent;
    for (const auto& one : trace.dispatches)
        sent += fmt::format("{}{} of {} to {}", sent.empty() ? "dispatches " : ", ", one.run_code,
                            iso(one.dispatch.day), one.dispatch.customer);
    return words.empty() || sent.empty() ? words + sent : words + "; " + sent;
}

TraceModel timed_trace(State& state, const TraceQuery& query, std::int64_t& milliseconds) {
    const auto begin = std::chrono::steady_clock::now();
    auto trace = make_trace(state, query);
    milliseconds =
        std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - begin)
            .count();
    return trace;
}

} // namespace

Result<TraceQuery> read_trace(const State& state, const TraceTyped& typed) {
    Refusals refusals;
    TraceQuery query;
    query.asks = typed.asks;
    query.day = state.today();
    if (!trimmed(typed.day).empty())
        if (const auto day = read_given_day("Day", typed.day, refusals))
            query.day = *day;
    switch (typed.asks) {
    case TraceOf::lot:
        query.lot = read_lot(state, typed.of, refusals);
        break;
    case TraceOf::product:
        query.product = read_product(state, typed.of, refusals);
        break;
    case TraceOf::run:
        query.run = read_run(state, typed.of, refusals);
        break;
    case TraceOf::customer:
        query.customer = trimmed(typed.of);
        if (query.customer.empty())
            refusals.push_back({"Customer", "is empty", "Enter the code of a customer"});
        break;
    }
    if (!refusals.empty())
        return refusals;
    return query;
}

Result<Told> carry_out(State& state, const ShowTrace& act) {
    if (act.typed == TraceTyped{}) {
        state.traced.reset();
        return Told{"", Touched::traced};
    }
    const auto query = read_trace(state, act.typed);
    if (!query)
        return query.refusals();
    state.traced = *query;
    return Told{"", Touched::traced};
}

Result<Told> carry_out(State& state, const HoldConcerned& act) {
    if (!state.traced)
        return Refusal{"Trace", "is not shown", "Trace a lot or a product first"};
    const std::string reason(trimmed(act.reason));
    if (reason.empty())
        return no_reason();
    const auto trace = make_trace(state, *state.traced);
    const auto lots = trace.to_hold();
    const auto beyond = beyond_hold(trace);
    if (lots.empty())
        return Refusal{"Lots",
                       "none has stock that can be put on hold" +
                           (beyond.empty() ? std::string() : "; beyond a hold are " + beyond),
                       "Look at the trace"};
    std::string codes;
    for (const auto& lot : trace.lots)
        if (lot.can_be_held)
            codes += (codes.empty() ? "" : ", ") + lot.lot.code;
    auto words = fmt::format("{} put on hold ({}): {}", counted(lots.size(), "lot", "lots"), codes, reason);
    Change change = state.change("hold_concerned", trace.title, words);
    change.journal_line().detail = beyond;
    Refusals refusals;
    Intents undoing;
    for (const auto& lot : trace.lots) {
        if (!lot.can_be_held)
            continue;
        change.also(state.journal_line("hold_lot", Subject("lot " + lot.lot.code, record_of(lot.lot.id)),
                                       fmt::format("Lot {} put on hold: {}", lot.lot.code, reason)));
        const Lot* before = state.book.lot(lot.lot.id);
        if (lot.lot.state == LotState::released && before && before->concession)
            undoing.emplace_back(TakeBackHold{lot.lot.id, *before->concession});
        else if (lot.lot.state == LotState::released)
            undoing.emplace_back(ReleaseLot{lot.lot.id, "hold taken back"});
        if (auto held = LotStore(*state.connection).set_state(change, lot.lot.id, LotState::held, reason);
            !held)
            append(refusals, held.refusals());
    }
    if (!refusals.empty())
        return change.refuse(std::move(refusals));
    change.commit();
    if (!beyond.empty())
        words += ". No hold reaches " + beyond;
    return Told{words, Touched::traced, undoing.empty() ? "" : "Undo: release what was released before",
                std::move(undoing)};
}

Result<Told> carry_out(State& state, const BeginDrill& act) {
    const auto query = read_trace(state, act.typed);
    if (!query)
        return query.refusals();
    Drill drill;
    drill.asks = query->asks;
    drill.of = trimmed(act.typed.of);
    if (query->asks == TraceOf::product || query->asks == TraceOf::customer)
        drill.day = query->day;
    const auto words = fmt::format("Drill begun: trace of {}", asked_in_words(act.typed, *query));
    Change change = state.change("begin_drill", "drill", words);
    const auto id = DrillStore(*state.connection).begin(change, drill);
    change.commit();
    state.drill = id;
    return Told{words, Touched::traced};
}

Result<Told> carry_out(State& state, const EndDrill& act) {
    const auto drill = DrillStore(*state.connection).find(act.drill);
    if (!drill)
        return Refusal{"Drill", "is not in the book", "Begin one"};
    const auto query =
        read_trace(state, {drill->asks, drill->of, drill->day ? iso(*drill->day) : std::string()});
    if (!query)
        return query.refusals();
    DrillEnd end;
    const auto trace = timed_trace(state, *query, end.milliseconds);
    end.seconds = std::max<std::int64_t>(
        0, std::chrono::duration_cast<std::chrono::seconds>(state.setup.clock.now() - drill->at).count());
    end.note = trimmed(act.note);
    end.report = listings_of(trace);
    const auto words = fmt::format("Drill ended after {} s: {}", end.seconds, summary_of(trace));
    Change change = state.change("end_drill", "drill", words);
    if (const auto ended = DrillStore(*state.connection).end(change, act.drill, end); !ended)
        return ended.refusals();
    change.commit();
    state.traced = *query;
    if (state.drill == act.drill)
        state.drill = {};
    return Told{words, Touched::traced};
}

} // namespace mellowbin::app
