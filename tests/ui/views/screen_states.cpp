#include "ui/views/screen_states.h"

#include <iterator>
#include <utility>

namespace mellowbin::test {

void empty_book(WholeWindow& w) {
    w.overview = {};
    w.overview.today = plan_today();
    w.lots = {};
    w.readiness = {};
    w.readiness.today = w.readiness.as_of = plan_today();
    w.plan = {};
    w.plan.from = w.plan.today = plan_today();
    w.mixer = {};
    w.mixer.today = plan_today();
    w.settings.limits.clear();
    w.settings.journal.clear();
    w.settings.places.clear();
    w.settings.learning = {};
}

void nothing(WholeWindow&) {}

void failure(WholeWindow& w) { w.notice = failed(1); }

void busy(WholeWindow& w) {
    w.overview.running = "Planning: 120 steps, 0.4 s";
    w.plan.is_planning = true;
    w.plan.progress = "120 steps, 0.4 s, best 5 920, bound 4 050";
}

std::vector<ScreenState> all_screen_states() {
    std::vector<ScreenState> all{{"mixer, empty", views::Screen::mixer, empty_book},
                                 {"mixer, filled", views::Screen::mixer, nothing}};
    for (const auto states :
         {intake_screen_states, lots_screen_states, plan_screen_states, settings_screen_states,
          mixer_screen_states, plant_screen_states, certificate_screen_states, trace_screen_states,
          mill_screen_states, judgement_screen_states, setting_up_screen_states}) {
        auto more = states();
        all.insert(all.end(), std::move_iterator(more.begin()), std::move_iterator(more.end()));
    }
    return all;
}

} // namespace mellowbin::test
