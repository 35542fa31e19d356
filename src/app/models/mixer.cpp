#include "app/models/mixer.h"

#include "app/book/book.h"
#include "app/book/station.h"
#include "app/models/looked_at.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::vector<std::string> oxidant_names(const Book& book) {
    std::vector<std::string> names;
    for (const auto& product : book.products)
        if (product.oxidant) {
            std::string name(name_of(*product.oxidant));
            if (std::find(names.begin(), names.end(), name) == names.end())
                names.push_back(std::move(name));
        }
    return names;
}

void list_changes(const Station& s, RunId run, MixerModel& model) {
    std::vector<RecordRef> records{record_of(run)};
    for (const auto& assignment : s.book.assignments_of(run))
        records.push_back(record_of(assignment.lot));
    for (const auto& record : records)
        if (const auto at = s.elsewhere.find(record); at != s.elsewhere.end())
            model.changed.push_back(s.changed_elsewhere(record) + ": " + at->second.words);
}

void list_runs(const Station& s, LookedAt& looked_at, MixerModel& model) {
    model.runs.clear();
    const Run* first_open = nullptr;
    for (const auto& run : s.book.runs) {
        if (run.day != model.today)
            continue;
        const Product* product = s.book.product(run.product);
        const Line* line = s.book.line(run.line);
        const bool is_finished = s.book.batches_mixed(run) >= run.batches;
        if (!is_finished && !first_open)
            first_open = &run;
        model.runs.push_back({run.id,
                              fmt::format("{}, no. {}: {}, {} batches", line ? line->name : "?", run.sequence,
                                          product ? product->name : "?", run.batches),
                              is_finished});
    }
    const bool is_chosen = looked_at.opened_run.is_known() && s.book.run(looked_at.opened_run);
    if (!is_chosen && first_open)
        looked_at.opened_run = first_open->id;
}

} // namespace

void make_mixer(const Station& s, LookedAt& looked_at, MixerModel& model) {
    model.today = s.today();
    model.oxidants = oxidant_names(s.book);
    list_runs(s, looked_at, model);
    model.changed.clear();
    model.card.reset();
    model.keeping.reset();
    model.levers.reset();
    const Run* opened = looked_at.opened_run.is_known() ? s.book.run(looked_at.opened_run) : nullptr;
    if (opened) {
        model.card = make_card(s, opened->id);
        model.keeping = make_keeping(s, opened->product);
        list_changes(s, opened->id, model);
    }
    if (looked_at.levers_of && s.book.run(*looked_at.levers_of))
        model.levers = make_levers(s, *looked_at.levers_of);
    if (model.levers && looked_at.plan_work.proposal())
        model.levers->title += ", as the plan in the book has it";
}

} // namespace mellowbin::app
