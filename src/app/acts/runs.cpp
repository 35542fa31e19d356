#include "app/acts/runs.h"

#include "app/acts/fermentation.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

int next_sequence(const std::vector<Run>& runs, LineId line, Day day) {
    int last = 0;
    for (const auto& run : runs)
        if (run.line == line && run.day == day)
            last = std::max(last, run.sequence);
    return last + 1;
}

/// Day, line and place among its runs; a later number where a run that went elsewhere still bears that one.
std::string free_code(const Book& book, const Line& line, const Run& run) {
    const auto line_place = &line - book.lines.data() + 1;
    for (int number = run.sequence;; ++number) {
        auto code = fmt::format("R{}-{}-{}", date::format("%y%m%d", run.day), line_place, number);
        const bool is_taken = std::any_of(book.runs.begin(), book.runs.end(),
                                          [&](const Run& other) { return other.code == code; });
        if (!is_taken)
            return code;
    }
}

} // namespace

Result<Told> carry_out(State& state, const AddRun& intent) {
    Refusals refusals;
    const Product* product = named(state.book.products, "Product", intent.product, refusals);
    const Line* line = named(state.book.lines, "Line", intent.line, refusals);
    const auto day = read_given_day("Day", intent.day, refusals);
    if (day && *day < state.today()) {
        refusals.push_back(
            {"Day", fmt::format("{} was read, which is before today, {}", iso(*day), iso(state.today())),
             "Plan for today or later"});
    }
    const auto batches = read_count("Batches", intent.batches, 1000, refusals);
    if (!refusals.empty())
        return refusals;

    Run run;
    run.product = product->id;
    run.line = line->id;
    run.day = *day;
    run.batches = *batches;
    run.flour = to_grams(product->batch_flour * run.batches);
    run.sequence = next_sequence(state.book.runs, line->id, run.day);
    run.code = free_code(state.book, *line, run);
    if (!intent.longer_minutes.empty()) {
        const auto longer = fermented_longer(state, run, intent.longer_minutes, refusals);
        if (!longer)
            return refusals;
        run = *longer;
    }
    const auto words = fmt::format("Run {} added: {}, {} batches, {} kg flour", run.code, product->name,
                                   run.batches, fixed(to_kilograms(run.flour).value(), 0));
    Change change = state.change("add_run", subject_of(run), words);
    const auto id = RunStore(*state.connection).save(change, run);
    if (!id)
        return change.refuse(id.refusals());
    change.journal_line().about = record_of(*id);
    change.commit();
    return Told{words, Touched::nothing, "Undo: drop run " + run.code, {DropRun{*id}}};
}

Result<Told> carry_out(State& state, const DropRun& intent) {
    const Run* run = state.book.run(intent.run);
    if (!run)
        return Refusal{"Run", "is not in the book", "Choose a run on the plan"};
    const auto words = fmt::format("Run {} dropped", run->code);
    const Product* product = state.book.product(run->product);
    const Line* line = state.book.line(run->line);
    AddRun again{product ? product->name : "", line ? line->name : "", iso(run->day),
                 std::to_string(run->batches)};
    if (run->longer_fermentation_minutes > 0)
        again.longer_minutes = std::to_string(run->longer_fermentation_minutes);
    Change change = state.change("drop_run", subject_of(*run), words);
    const auto done = RunStore(*state.connection).remove(change, intent.run);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: add the run again", {std::move(again)}};
}

} // namespace mellowbin::app
