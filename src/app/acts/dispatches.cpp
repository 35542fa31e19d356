#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/acts/trace.h"
#include "app/book/fields.h"
#include "core/typed_text.h"
#include "db/batch_store.h"
#include "db/dispatch_store.h"
#include "db/rework_store.h"
#include "db/run_store.h"
#include "db/trace_store.h"
#include "exchange/dispatch_file.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string amount_of(const Dispatch& d) {
    std::string words = d.pieces ? fmt::format("{} pieces", *d.pieces) : std::string();
    if (d.mass)
        words += fmt::format("{}{}", words.empty() ? "" : ", ", kg_words(*d.mass));
    return words;
}

std::string words_of(const Dispatch& d, const Run& run) {
    return fmt::format("{} of run {} to customer {} on {}", amount_of(d), run.code, d.customer, iso(d.day));
}

/// The product named, or none where nothing is.
std::optional<ProductId> product_typed(const State& state, const std::string& typed, Refusals& refusals) {
    const auto name = trimmed(typed);
    if (name.empty())
        return {};
    for (const auto& product : state.book.products)
        if (product.name == name)
            return product.id;
    named(state.book.products, "Product", std::string(name), refusals);
    return {};
}

/// The only run of the product on the day on which bread left, or on the day before.
std::optional<Run> run_of_product(const State& state, ProductId product, Day day, Refusals& refusals) {
    for (const Day baked : {day, day - Days{1}}) {
        const auto runs = TraceStore(*state.connection).runs_of(product, baked);
        if (runs.size() == 1)
            return RunStore(*state.connection).find(runs.front());
        if (runs.size() > 1) {
            std::string codes;
            for (const auto id : runs)
                if (const auto run = RunStore(*state.connection).find(id))
                    codes += (codes.empty() ? "" : ", ") + run->code;
            refusals.push_back({"Run",
                                fmt::format("is empty, and {} has more than one: {}", iso(baked), codes),
                                "Say which it was"});
            return {};
        }
    }
    refusals.push_back({"Run",
                        fmt::format("is empty, and the product has none on {} or the day before", iso(day)),
                        "Enter the code of the run"});
    return {};
}

std::optional<Run> run_typed(const State& state, const DispatchDraft& draft, std::optional<ProductId> product,
                             Day day, Refusals& refusals) {
    const auto code = trimmed(draft.run);
    if (code.empty() && product)
        return run_of_product(state, *product, day, refusals);
    auto run = code.empty() ? std::nullopt : RunStore(*state.connection).find(code);
    if (!run)
        refusals.push_back({"Run",
                            code.empty() ? "is empty, and so is the product"
                                         : fmt::format("\"{}\" is not in the book", excerpt(code)),
                            "Enter the code of the run, or the product"});
    else if (product && run->product != *product)
        refusals.push_back({"Product", fmt::format("is not the one of run {}", run->code),
                            "Correct the product or the run"});
    return run;
}

struct Sent {
    Dispatch dispatch;
    Run run;
};

Result<Sent> read_dispatch(const State& state, const DispatchDraft& draft) {
    Refusals refusals;
    auto dispatch = accept(draft, state.today());
    if (!dispatch)
        append(refusals, dispatch.refusals());
    const auto product = product_typed(state, draft.product, refusals);
    const Day day = dispatch ? dispatch->day : state.today();
    const auto run = run_typed(state, draft, product, day, refusals);
    if (run && dispatch && dispatch->day < run->day)
        refusals.push_back(
            {"Day",
             fmt::format("{} was read, which is before its run, {}", iso(dispatch->day), iso(run->day)),
             "Correct the day or the run"});
    if (!refusals.empty())
        return refusals;
    dispatch->run = run->id;
    dispatch->product = run->product;
    return Sent{*std::move(dispatch), *run};
}

/// The same refusals, each saying of which line it is.
Refusals of_line(const Refusals& refusals, std::size_t line) {
    Refusals named;
    for (const auto& refusal : refusals)
        named.push_back({fmt::format("Line {}: {}", line, refusal.field), refusal.what, refusal.remedy});
    return named;
}

/// The batch of this number of the run, which stands.
BatchId batch_typed(const State& state, const char* field, const std::string& run_typed,
                    const std::string& number_typed, Refusals& refusals) {
    const auto run = RunStore(*state.connection).find(trimmed(run_typed));
    if (!run) {
        refusals.push_back({field, fmt::format("run \"{}\" is not in the book", excerpt(trimmed(run_typed))),
                            "Enter the code of a run"});
        return {};
    }
    const auto number = read_count(field, number_typed, 1'000'000, refusals);
    if (!number)
        return {};
    for (const auto& batch : TraceStore(*state.connection).batches_of(run->id))
        if (batch.number == *number)
            return batch.id;
    refusals.push_back({field, fmt::format("run {} has no batch {} that stands", run->code, *number),
                        "Look at the batches of the run"});
    return {};
}

} // namespace

Result<Told> carry_out(State& state, const LogDispatch& act) {
    const auto sent = read_dispatch(state, act.dispatch);
    if (!sent)
        return sent.refusals();
    auto words = "Sent: " + words_of(sent->dispatch, sent->run);
    if (!sent->dispatch.reason.empty())
        words += fmt::format(", all the same: {}", sent->dispatch.reason);
    Change change = state.change("log_dispatch", subject_of(sent->run), words);
    const auto id = DispatchStore(*state.connection).log(change, sent->dispatch);
    if (!id)
        return id.refusals();
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced, "Undo: it did not leave", {CounterDispatch{*id, "taken back"}}};
}

Result<Told> carry_out(State& state, const LogDispatches& act) {
    Refusals refusals;
    std::vector<std::pair<std::size_t, Sent>> all;
    for (const auto& line : act.lines) {
        auto sent = read_dispatch(state, line.dispatch);
        if (sent)
            all.emplace_back(line.line, *std::move(sent));
        else
            append(refusals, of_line(sent.refusals(), line.line));
    }
    if (act.lines.empty())
        refusals.push_back({"File", "has no dispatch", "Choose a file with a line for each"});
    if (!refusals.empty())
        return refusals;
    const auto words = fmt::format("{} dispatches logged{}", all.size(),
                                   act.file.empty() ? std::string() : " from " + act.file);
    Change change = state.change("log_dispatches", "dispatches", words);
    Intents undoing;
    for (const auto& [line, sent] : all) {
        const auto id = DispatchStore(*state.connection).log(change, sent.dispatch);
        if (!id) {
            append(refusals, of_line(id.refusals(), line));
            continue;
        }
        change.also(state.journal_line("log_dispatch", subject_of(sent.run),
                                       "Sent: " + words_of(sent.dispatch, sent.run)));
        undoing.emplace_back(CounterDispatch{*id, "taken back"});
    }
    if (!refusals.empty())
        return change.refuse(std::move(refusals));
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced, "Undo: none of them left", std::move(undoing)};
}

Result<Told> carry_out(State& state, const ReadDispatches& act) {
    auto read = exchange::read_dispatches(act.bytes);
    if (!read)
        return read.refusals();
    return carry_out(state, LogDispatches{*std::move(read), act.file});
}

Result<Told> carry_out(State& state, const CounterDispatch& act) {
    const std::string reason(trimmed(act.reason));
    if (reason.empty())
        return no_reason();
    const auto found = DispatchStore(*state.connection).find(act.dispatch);
    const auto run = found ? RunStore(*state.connection).find(found->run) : std::nullopt;
    if (!run)
        return Refusal{"Dispatch", "is not in the book", "Choose one from the list"};
    const auto words = fmt::format("Did not leave: {}: {}", words_of(*found, *run), reason);
    Change change = state.change("counter_dispatch", subject_of(*run), words);
    if (const auto done = DispatchStore(*state.connection).counter(change, act.dispatch, reason); !done)
        return done.refusals();
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced};
}

Result<Told> carry_out(State& state, const LogRework& act) {
    Refusals refusals;
    auto rework = accept(act.rework);
    if (!rework)
        append(refusals, rework.refusals());
    const auto from = batch_typed(state, "Put back", act.rework.from_run, act.rework.from_batch, refusals);
    const auto into = batch_typed(state, "Batch", act.rework.into_run, act.rework.into_batch, refusals);
    if (!refusals.empty())
        return refusals;
    rework->from = from;
    rework->into = into;
    const auto run = RunStore(*state.connection).find(trimmed(act.rework.into_run));
    const auto words = fmt::format("{} of {} of run {}, batch {} put back into run {}, batch {}",
                                   kg_words(rework->mass), key_of(rework->kind), trimmed(act.rework.from_run),
                                   trimmed(act.rework.from_batch), run->code, trimmed(act.rework.into_batch));
    Change change = state.change("log_rework", subject_of(*run), words);
    const auto id = ReworkStore(*state.connection).log(change, *rework);
    if (!id)
        return id.refusals();
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced, "Undo: it was not put back", {CounterRework{*id, "taken back"}}};
}

Result<Told> carry_out(State& state, const CounterRework& act) {
    const std::string reason(trimmed(act.reason));
    if (reason.empty())
        return no_reason();
    const auto found = ReworkStore(*state.connection).find(act.rework);
    if (!found)
        return Refusal{"Rework", "is not in the book", "Look at the trace of the batch"};
    const auto words = fmt::format("{} were not put back: {}", kg_words(found->mass), reason);
    Change change = state.change("counter_rework", "rework", words);
    if (const auto done = ReworkStore(*state.connection).counter(change, act.rework, reason); !done)
        return done.refusals();
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced};
}

} // namespace mellowbin::app
