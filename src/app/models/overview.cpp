#include "app/models/overview.h"

#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/outlook.h"
#include "app/models/plan.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "app/plan/work.h"

#include <algorithm>

namespace mellowbin::app {

Overview make_overview(const Station& s, const PlanWork& work, const PlanModel& plan,
                       const ReadinessModel& readiness, const SettingsModel& settings) {
    Overview o;
    o.today = s.today();
    o.clock = s.setup.clock.in_words();
    o.plant = Choices(s.book.settings).words("plant");
    o.person = s.setup.person;
    o.book = s.setup.book;
    const auto& line = s.last_elsewhere;
    if (line && (!line->about || s.elsewhere.contains(*line->about))) // till it is looked at
        o.elsewhere = s.setup.clock.in_words(line->at, o.today) + ", " + line->who + ": " + line->words;
    o.running = work.is_running() ? work.progress_in_words() : "";
    o.to_judge = static_cast<int>(std::count_if(s.book.lots.begin(), s.book.lots.end(), [](const Lot& lot) {
        return lot.state == LotState::awaiting_judgement;
    }));
    for (const auto& run : plan.runs)
        o.short_runs += !run.is_past && run.short_kg >= 0.5 ? 1 : 0;
    for (const auto& row : readiness.rows)
        o.past_best += row.now == Readiness::past_best ? 1 : 0;
    for (const auto& run : s.book.runs)
        if (run.day == o.today)
            o.batches_today += run.batches - s.book.batches_mixed(run);
    o.unconfirmed_limits =
        static_cast<int>(std::count_if(settings.limits.begin(), settings.limits.end(),
                                       [](auto& l) { return l.matters && !l.is_confirmed; }));
    return o;
}

} // namespace mellowbin::app
