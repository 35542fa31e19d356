#include "ui/views/plan/shortages.h"

#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace mellowbin::views {

using namespace ui;

namespace {

/// The first sentence says what is short; what follows is the cure.
std::pair<std::string, std::string> with_its_cure(const std::string& shortage) {
    const auto end = shortage.find(". ");
    if (end == std::string::npos)
        return {shortage, {}};
    return {shortage.substr(0, end), shortage.substr(end + 2)};
}

/// "560 kg short in all, in 1 run".
std::string in_all(const app::PlanModel& model) {
    double kg = 0;
    std::size_t runs = 0;
    for (const auto& run : model.runs) {
        kg += std::max(0.0, run.short_kg);
        runs += run.short_kg > 0 ? 1 : 0;
    }
    if (runs == 0)
        return counted(model.shortages.size(), "shortage", "shortages");
    return fmt::format("{} kg short in all, in {}", kilograms(kg), counted(runs, "run", "runs"));
}

} // namespace

bool draw_shortages(bool& with_cures, const app::PlanModel& model) {
    bool wants_next = false;
    loud_panel(Role::stop, "", [&] {
        flow([&] {
            text(fmt::format("{} {}", sign(Role::stop), in_all(model)),
                 {.role = Role::stop, .weight = Weight::bold});
            wants_next = button("Next short run", {.key = "F10"});
            if (button(with_cures ? "Hide the cures" : "Show the cures", {.kind = ButtonKind::quiet}))
                with_cures = !with_cures;
        });
        if (!with_cures)
            return;
        const auto height = std::min(7.0F, 3.5F * static_cast<float>(model.shortages.size()));
        scroll_area("Cures", {height}, [&] {
            for (const auto& shortage : model.shortages) {
                const auto [words, cure] = with_its_cure(shortage);
                status(Role::stop, words);
                if (!cure.empty())
                    paragraph(cure);
            }
        });
    });
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
