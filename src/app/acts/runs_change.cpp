#include "app/acts/assignments.h"
#include "app/acts/intent.h"
#include "app/acts/runs.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "db/run_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

/// Runs of a line and day in their order, without one of them.
std::vector<Run> others_there(const Book& book, LineId line, Day day, RunId without) {
    std::vector<Run> there;
    for (const auto& run : book.runs)
        if (run.line == line && run.day == day && run.id != without)
            there.push_back(run);
    return there;
}

void number_from_one(std::vector<Run>& runs) {
    for (std::size_t i = 0; i < runs.size(); ++i)
        runs[i].sequence = static_cast<int>(i) + 1;
}

/// The run where it goes, and all others of the lines and days it leaves and comes to, numbered anew.
std::vector<Run> placed(const Book& book, const Run& was, Run is) {
    auto there = others_there(book, is.line, is.day, is.id);
    const auto at = std::min<std::size_t>(static_cast<std::size_t>(is.sequence) - 1, there.size());
    there.insert(there.begin() + static_cast<std::ptrdiff_t>(at), is);
    number_from_one(there);
    if (was.line == is.line && was.day == is.day)
        return there;
    auto left = others_there(book, was.line, was.day, was.id);
    number_from_one(left);
    there.insert(there.end(), left.begin(), left.end());
    return there;
}

/// Where it stands among the runs of its line and day, from 1, whatever gaps there are in their numbers.
int place_of(const Book& book, const Run& run) {
    int place = 1;
    for (const auto& other : others_there(book, run.line, run.day, run.id))
        place += std::pair{other.sequence, other.id} < std::pair{run.sequence, run.id} ? 1 : 0;
    return place;
}

bool has_moved(const Run& was, const Run& is) { return was.line != is.line || was.day != is.day; }

void read_place(const State& state, const ChangeRun& typed, Run& run, Refusals& refusals) {
    const Run was = run;
    if (!typed.line.empty())
        if (const Line* line = named(state.book.lines, "Line", typed.line, refusals))
            run.line = line->id;
    if (!typed.day.empty())
        if (const auto day = read_given_day("Day", typed.day, refusals))
            run.day = *day;
    if (run.day < state.today() && run.day != was.day)
        refusals.push_back(
            {"Day", fmt::format("{} was read, which is before today, {}", iso(run.day), iso(state.today())),
             "Plan for today or later"});
    const int among = static_cast<int>(others_there(state.book, run.line, run.day, run.id).size()) + 1;
    run.sequence = has_moved(was, run) ? among : place_of(state.book, was);
    if (!typed.sequence.empty())
        if (const auto sequence = read_count("Sequence", typed.sequence, among, refusals))
            run.sequence = *sequence;
}

void read_batches(const State& state, const ChangeRun& typed, const Product& product, Run& run,
                  Refusals& refusals) {
    if (typed.batches.empty())
        return;
    const auto batches = read_count("Batches", typed.batches, 1000, refusals);
    const int mixed = state.book.batches_mixed(run);
    if (batches && *batches < mixed)
        refusals.push_back({"Batches", fmt::format("{} was read, but {} are mixed already", *batches, mixed),
                            "Enter as many as were mixed, or more"});
    if (!batches || *batches == run.batches)
        return;
    run.batches = *batches;
    run.flour = to_grams(product.batch_flour * run.batches);
}

/// The run as it is to be; empty, with every reason, where it cannot be so.
std::optional<Run> read_change(const State& state, const ChangeRun& typed, Refusals& refusals) {
    const Run* was = state.book.run(typed.run);
    const Product* product = was ? state.book.product(was->product) : nullptr;
    if (!product) {
        refusals.push_back({"Run", "is not in the book", "Choose a run on the plan"});
        return {};
    }
    if (was->day < state.today()) {
        refusals.push_back({"Run", fmt::format("{} was on {}, which is past", was->code, iso(was->day)),
                            "Choose a run of today or later"});
        return {};
    }
    Run run = *was;
    read_place(state, typed, run, refusals);
    const bool is_begun = state.book.used_for(run.id) > Grams{0};
    if (is_begun && (has_moved(*was, run) || run.sequence != place_of(state.book, *was)))
        refusals.push_back({"Run", fmt::format("{} is being mixed", was->code),
                            "It stays where it is; only its batches can still be changed"});
    read_batches(state, typed, *product, run, refusals);
    return refusals.empty() ? std::optional(run) : std::nullopt;
}

/// What the run keeps of its lots. With fewer batches the open ones are cut; with more they stay as they are,
/// and the run is short until it is planned again. Locked ones are never cut: they are refused.
std::optional<RestoreAssignments> kept_lots(const Book& book, const Run& is, Refusals& refusals) {
    const Product& product = *book.product(is.product);
    auto plan = as_they_stand(book, {is.id});
    for (const auto part : {FlourPart::main, FlourPart::second}) {
        if (part == FlourPart::second && !product.second_flour)
            continue;
        const Grams need = grams_of(product, part, is.flour);
        const Held held = held_by(book, product, part, plan);
        if (held.fixed > need + Grams{is.batches}) {
            refusals.push_back({"Batches",
                                fmt::format("{} are locked or mixed; {} batches need only {}",
                                            kg_words(held.fixed), is.batches, kg_words(need)),
                                "Undo a lock, or enter more batches"});
            continue;
        }
        const Grams batch{need.count() / is.batches};
        cut(book, held, std::max(Grams{0}, need - held.fixed),
            product.one_lot_a_batch ? std::optional(batch) : std::nullopt);
    }
    drop_empty(plan);
    return refusals.empty() ? std::optional(plan) : std::nullopt;
}

std::string change_in_words(const Book& book, const Run& was, const Run& is, int place) {
    const Line* line = book.line(is.line);
    std::string words;
    if (has_moved(was, is))
        words += fmt::format(", {} on {}", iso(is.day), line ? line->name : "?");
    if (has_moved(was, is) || place != place_of(book, was))
        words += fmt::format(", no. {} there", place);
    if (was.batches != is.batches)
        words +=
            fmt::format(", {} batches instead of {}, {} flour", is.batches, was.batches, kg_words(is.flour));
    return fmt::format("Run {} changed: {}", was.code, words.substr(2));
}

ChangeRun back_to(const Book& book, const Run& was) {
    const Line* line = book.line(was.line);
    return {was.id, line ? line->name : "", iso(was.day), std::to_string(was.batches),
            std::to_string(place_of(book, was))};
}

} // namespace

Result<Told> carry_out(State& state, const ChangeRun& intent) {
    Refusals refusals;
    const auto is = read_change(state, intent, refusals);
    if (!is)
        return refusals;
    const Run& was = *state.book.run(intent.run);
    const bool same_need = was.batches == is->batches;
    if (same_need && !has_moved(was, *is) && is->sequence == place_of(state.book, was))
        return Told{fmt::format("Run {} is as it was", was.code)};
    auto before = as_they_stand(state.book, {was.id});
    const auto plan = same_need ? std::optional(before) : kept_lots(state.book, *is, refusals);
    if (!plan)
        return refusals;
    const bool cuts = plan->assignments != before.assignments || plan->promises != before.promises;
    auto words = change_in_words(state.book, was, *is, is->sequence);
    if (is->flour > was.flour || has_moved(was, *is))
        words += "; its lots stay: plan again";

    Intents undoing{back_to(state.book, was)};
    if (cuts)
        undoing.push_back(std::move(before));
    Change change = state.change("change_run", subject_of(was), words);
    RunStore runs(*state.connection);
    for (const auto& run : placed(state.book, was, *is))
        if (const auto saved = runs.save(change, run); !saved)
            return change.refuse(saved.refusals());
    if (cuts)
        if (const auto done = runs.set_assignments(change, plan->runs, plan->assignments, plan->promises);
            !done)
            return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: the run as it was", std::move(undoing)};
}

} // namespace mellowbin::app
