#include "ui/views/readiness/story.h"

#include "app/acts/notice.h"
#include "app/models/outlook.h"
#include "app/models/readiness.h"
#include "app/models/story.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/estimate_parts.h"
#include "ui/views/common/results.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

// What to do

void advice(const app::AgingStory& story) {
    if (story.advice == app::Advice::wait)
        ui::paragraph(advice_words(story.advice), {.weight = ui::Weight::bold});
    else
        ui::status(role_of(story.advice), as_sentence(advice_words(story.advice)));
    for (const auto& reason : story.reasons)
        ui::paragraph(reason);
}

void days_of(const app::AgingStory& story, const app::ReadinessModel& model) {
    const auto sure = fmt::format("{} sure", percent(model.confidence));
    const auto day = [&](std::string_view label, const std::optional<Day>& on) {
        ui::figure({.label = label,
                    .number = day_or_dash(on),
                    .note = on ? std::string_view(sure) : std::string_view(),
                    .role = Role::model});
    };
    ui::grid(8_em, [&] {
        day("Ready on", story.ready_at_confidence);
        day("Use first from", story.use_first_on);
        day("Past its best on", story.past_best_at_confidence);
    });
    spread_fact("Ready", story.ready);
    spread_fact("Past its best", story.past_best);
}

void head(const app::AgingStory& story, const app::ReadinessModel& model) {
    ui::panel({}, [&] {
        ui::heading(fmt::format("Lot {}", story.code));
        ui::hint(model.as_of == model.today
                     ? story.flour
                     : fmt::format("{} · as of {}", story.flour, short_day(model.as_of)));
        advice(story);
        ui::gap(1);
        days_of(story, model);
    });
}

// Keeping

bool has_stop(const app::AgingStory& story) {
    for (const auto& alarm : story.alarms)
        if (alarm.is_stop)
            return true;
    return false;
}

void keeping_words(const app::AgingStory& story) {
    for (const auto& alarm : story.alarms)
        ui::status(alarm.is_stop ? Role::stop : Role::mind, alarm.words);
    if (story.alarms.empty())
        ui::status(Role::good, "No alarm of moisture, water activity, condensation or fat acidity");
    if (story.moisture_now)
        ui::fact({.label = "Moisture now",
                  .value = number_words(story.moisture_now, 1),
                  .unit = "%",
                  .note = "estimate",
                  .role = Role::model});
    if (story.water_activity_now)
        ui::fact({.label = "Water activity now",
                  .value = number_words(story.water_activity_now, 2),
                  .unit = "of 1",
                  .note = "estimate",
                  .role = Role::model});
    if (story.fat_acidity_limit_on.likely)
        spread_fact("Fat acidity at its limit", story.fat_acidity_limit_on);
    if (!story.fat_acidity_words.empty())
        ui::hint(story.fat_acidity_words);
}

void keeping(const app::AgingStory& story) {
    constexpr std::string_view title = "Keeping of the flour";
    const auto body = [&] { keeping_words(story); };
    if (has_stop(story))
        ui::loud_panel(Role::stop, title, body);
    else
        ui::panel(title, body);
}

// What may come

void runs(const app::AgingStory& story) {
    ui::panel("On the days of its runs", [&] {
        if (story.runs.empty())
            ui::hint("No planned run draws this lot.");
        for (const auto& run : story.runs) {
            ui::paragraph(run.words);
            ui::scope(run.run.number(), [&] {
                const auto on = fmt::format("on {}", short_day(run.day));
                const auto chance = [&](std::string_view label, double share) {
                    ui::fact({.label = label,
                              .value = number_words(share * 100, 0),
                              .unit = "%",
                              .note = on,
                              .role = Role::model});
                };
                chance("Mature", run.probability_mature);
                chance("Past its best", run.probability_past_best);
            });
        }
    });
}

void worth_of_retests(const app::AgingStory& story) {
    ui::panel("What a retest now would be worth", [&] {
        if (story.retests.empty()) {
            ui::hint("Not known for this lot.");
            return;
        }
        ui::hint("Width of the ready date's 80 % interval after it, on average.");
        for (const auto& worth : story.retests)
            ui::fact({.label = traits(worth.property).name,
                      .value = number_words(worth.days_expected, 0),
                      .unit = "days",
                      .note = worth.words,
                      .role = Role::model});
    });
}

void elsewhere(const app::AgingStory& story) {
    ui::panel("In another place from now on", [&] {
        if (story.elsewhere.empty())
            ui::hint("No other place with another climate.");
        for (const auto& place : story.elsewhere)
            ui::fact({.label = place.name,
                      .value = place.ready_on ? "ready " + short_day(*place.ready_on)
                                              : std::string("not ready within the studied time"),
                      .note = place.words,
                      .role = Role::model});
    });
}

void origins(const app::AgingStory& story) {
    ui::panel("Where each number comes from", [&] {
        for (const auto& origin : story.origins)
            ui::fact({.label = origin.what, .value = origin.value, .note = origin.from});
        for (const auto& words : story.reservations)
            ui::status(Role::model, words);
    });
}

} // namespace

bool draw(LotStory& view, const app::AgingStory& story, const app::ReadinessModel& model,
          const app::Notice& notice, app::Intents& out) {
    bool is_closed = false;
    ui::scope(story.lot.number(), [&] {
        head(story, model);
        ui::flow([&] {
            is_closed = ui::button("Close story");
            draw(view.retest, {story.lot, story.code, story.changed}, model, notice, out);
        });
        keeping(story);
        draw_charts(view.charts, story, model);
        runs(story);
        ui::panel("Results", [&] { draw_results(story.tests, view.withdrawing); });
        worth_of_retests(story);
        elsewhere(story);
        origins(story);
    });
    draw(view.withdrawing, notice, out);
    return is_closed;
}

} // namespace mellowbin::views
