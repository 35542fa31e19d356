#include "ui/views/screens.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"

#include <utility>

namespace mellowbin::views {
namespace {

void draw_current(Screens& screens, const Models& m, app::Intents& out) {
    switch (screens.current()) {
    case Screen::intake:
        return draw(screens.intake, m.intake, m.notice, m.overview, out);
    case Screen::lots:
        return draw(screens.lots, m.lots, m.readiness, m.notice, out);
    case Screen::readiness:
        return draw(screens.readiness, m.readiness, m.notice, m.overview, out);
    case Screen::plan:
        return draw(screens.plan, m.plan, m.lots, m.notice, m.overview, out);
    case Screen::mixer:
        return draw(screens.mixer, m.mixer, m.notice, m.overview, out);
    case Screen::settings:
        return draw(screens.settings, m.settings, m.notice, m.overview, out);
    }
}

/// The answer to a search leads to the screen that shows it.
void follow(Screens& screens, const app::Notice& notice) {
    if (notice.number == screens.notice_seen)
        return;
    screens.notice_seen = notice.number;
    if (const auto screen = screen_named(notice.screen))
        screens.show(*screen);
}

/// A run opened on another screen is read on the mixer's.
void follow(Screens& screens, const app::Intent& intent) {
    if (intent.as<app::OpenRun>())
        screens.show(Screen::mixer);
}

} // namespace

void Screens::show(Screen screen) {
    if (screen == workbench.current)
        return;
    workbench.current = screen;
    if (screen == Screen::intake)
        intake.wants_focus = true;
    if (screen == Screen::mixer)
        mixer.scan.wants_focus = true;
}

void draw(Screens& screens, const Models& models, app::Intents& out) {
    follow(screens, models.notice);
    const auto before = out.size();
    const auto shown = screens.current();
    draw(
        screens.workbench, models.notice, models.overview, [&] { draw_current(screens, models, out); }, out);
    const auto chosen = std::exchange(screens.workbench.current, shown);
    screens.show(chosen);
    for (std::size_t i = before; i < out.size(); ++i)
        follow(screens, out[i]);
}

} // namespace mellowbin::views
