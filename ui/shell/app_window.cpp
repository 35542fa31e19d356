#include "ui/shell/app_window.h"

#include "app/acts/notice.h"
#include "app/app.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "ui/shell/window.h"
#include "ui/views/screens.h"

#include <fmt/format.h>

#include <stdexcept>

namespace mellowbin::ui {
namespace {

views::Models models_of(const app::App& app) {
    return {app.notice(),    app.overview(), app.intake(), app.lots(),
            app.readiness(), app.plan(),     app.mixer(),  app.settings()};
}

/// One frame, and then what the person did in it.
void draw_and_act(views::Screens& screens, app::App& app) {
    app.poll();
    app::Intents intents;
    views::draw(screens, models_of(app), intents);
    for (const auto& intent : intents)
        app.handle(intent);
}

} // namespace

int open_window(app::App& app, const Opening& opening) {
    views::Screens screens;
    if (!opening.screen.empty()) {
        const auto screen = views::screen_named(opening.screen);
        if (!screen) {
            throw std::runtime_error(fmt::format("there is no screen \"{}\"; there are {}", opening.screen,
                                                 views::screen_names()));
        }
        screens.show(*screen);
    }
    WindowSetup setup;
    setup.title = app.overview().plant.empty() ? "mellowbin" : app.overview().plant + " – mellowbin";
    setup.width = opening.width;
    setup.height = opening.height;
    setup.shown = opening.shot.empty() ? Shown::yes : Shown::no;
    setup.text_size = opening.text_size;
    setup.palette = opening.palette;
    const auto made = std::chrono::steady_clock::now();
    Window window(setup);
    if (opening.shot.empty()) {
        window.run([&] { draw_and_act(screens, app); });
        return 0;
    }
    window.shot(opening.shot, [&] { draw_and_act(screens, app); });
    const double before = std::chrono::duration<double>(made - opening.started).count();
    fmt::print("Picture written to {}; the first frame was there {:.2f} s after the start\n", opening.shot,
               before + window.seconds_to_first_picture());
    return 0;
}

} // namespace mellowbin::ui
