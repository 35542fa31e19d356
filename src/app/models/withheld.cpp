#include "app/models/withheld.h"

#include "app/models/touched_runs.h"
#include "app/plan/given.h"
#include "app/plan/view.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// Why a dose is withheld, and the codes of the runs it is asked for in.
struct Withheld {
    std::string why;
    std::vector<std::string> runs;
};

void add(std::vector<Withheld>& all, const std::string& why, const std::string& run) {
    const auto at = std::find_if(all.begin(), all.end(), [&](const Withheld& one) { return one.why == why; });
    if (at != all.end())
        at->runs.push_back(run);
    else
        all.push_back({why, {run}});
}

std::string in_words(const Withheld& one) {
    return fmt::format("{} ({}: {})", one.why,
                       one.runs.size() == 1 ? "1 run" : fmt::format("{} runs", one.runs.size()),
                       named(one.runs));
}

} // namespace

std::vector<std::string> withheld_in(const Book& book, const std::vector<PlannedRun>& runs) {
    std::vector<Withheld> all;
    for (const auto& planned : runs) {
        const Run* run = book.run(planned.id);
        if (planned.is_past || !run || book.batches_mixed(*run) >= run->batches)
            continue;
        if (!planned.dose_withheld.empty())
            add(all, planned.dose_withheld, planned.code);
        if (planned.keeping_withheld)
            add(all, planned.keeping_words, planned.code);
    }
    std::vector<std::string> words;
    for (const auto& one : all)
        words.push_back(in_words(one));
    return words;
}

std::vector<std::string> withheld_in(const Station& s, PlanView& view, PlanSpan span) {
    static const std::vector<Given> nothing;
    const GivenByRun given = given_by_book(view.book);
    std::vector<PlannedRun> runs;
    for (const auto& run : view.book.runs) {
        if (!span.holds(run.day) || run.day < span.today)
            continue;
        const auto at = given.find(run.id);
        runs.push_back(planned_run(s, view, run, at == given.end() ? nothing : at->second));
    }
    return withheld_in(view.book, runs);
}

} // namespace mellowbin::app
