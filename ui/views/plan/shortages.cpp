#include "ui/views/plan/shortages.h"

#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <tuple>
#include <vector>

namespace mellowbin::views {

using namespace ui;

namespace {

/// "Short: 221 kg for Hearth loaf, Sat 5 Dec"; of several runs "Short: 600 kg in 2 runs, first Bun, Thu 26
/// Nov".
std::string in_all(const app::PlanModel& model) {
    double kg = 0;
    std::size_t runs = 0;
    const app::PlannedRun* first = nullptr;
    for (const auto& run : model.runs) {
        if (run.short_kg <= 0)
            continue;
        kg += run.short_kg;
        ++runs;
        if (first == nullptr || run.day < first->day)
            first = &run;
    }
    if (first == nullptr)
        return "Short: " + counted(model.shortages.size(), "run", "runs");
    const auto which = fmt::format("{}, {}", first->product, short_day(first->day));
    return runs == 1 ? fmt::format("Short: {} kg for {}", kilograms(kg), which)
                     : fmt::format("Short: {} kg in {} runs, first {}", kilograms(kg), runs, which);
}

} // namespace

bool draw_shortages(const app::PlanModel& model) {
    bool wants_next = false;
    strip(Role::stop, in_all(model),
          [&] { wants_next = button("Show it", {.kind = ButtonKind::quiet, .key = "F10"}); });
    return wants_next;
}

std::optional<std::int64_t> next_short_run(const app::PlanModel& model, std::optional<std::int64_t> after) {
    std::vector<const app::PlannedRun*> runs;
    for (const auto& run : model.runs)
        if (run.short_kg > 0 || after == run.id.number())
            runs.push_back(&run);
    std::stable_sort(runs.begin(), runs.end(), [](const auto* a, const auto* b) {
        return std::tuple(a->day, a->line) < std::tuple(b->day, b->line);
    });
    const auto here =
        std::find_if(runs.begin(), runs.end(), [&](const auto* run) { return after == run->id.number(); });
    const auto is_short = [](const auto* run) { return run->short_kg > 0; };
    auto next = here == runs.end() ? here : std::find_if(here + 1, runs.end(), is_short);
    if (next == runs.end())
        next = std::find_if(runs.begin(), runs.end(), is_short);
    return next == runs.end() ? std::nullopt : std::optional((*next)->id.number());
}

} // namespace mellowbin::views
