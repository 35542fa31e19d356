#include "ui/shell/app_window.h"

#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/kept_work.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "db/progress.h"
#include "ui/shell/keeping.h"
#include "ui/shell/told_to_end.h"
#include "ui/shell/viewer.h"
#include "ui/shell/window.h"
#include "ui/views/opening.h"
#include "ui/views/screens.h"

#include <fmt/format.h>

#include <stdexcept>

namespace mellowbin::ui {
namespace {

views::Models models_of(const app::App& app) {
    return {app.notice(), app.overview(), app.intake(), app.lots(),    app.readiness(),
            app.plan(),   app.mixer(),    app.plant(),  app.settings()};
}

/// A page that was written to be looked at is shown once, by the system's viewer.
class Viewer {
public:
    void follow(const app::Notice& notice) {
        if (!notice.document.empty() && notice.number != shown_)
            open_in_viewer(notice.document);
        shown_ = notice.number;
    }

private:
    std::uint64_t shown_ = 0;
};

/// One frame, and then what the person did in it. True where the person said that the window may go.
bool draw_and_act(views::Screens& screens, Keeping& keeping, app::App& app) {
    app.poll();
    keeping.tell(screens, app.clock());
    app::Intents intents;
    views::draw(screens, models_of(app), intents);
    for (const auto& intent : intents)
        app.handle(intent);
    app::Intents opens;
    const auto after = keeping.follow(screens, models_of(app), app.clock().now(), opens);
    for (const auto& intent : opens)
        app.handle(intent);
    return after == Keeping::After::closing;
}

/// Draws and acts until the person closes the window, or the program is told to end.
void run(Window& window, views::Screens& screens, Keeping& keeping, app::App& app) {
    constexpr double soon = 0.1;
    Viewer viewer;
    hear_when_told_to_end();
    window.ask_before_closing([&] { return keeping.may_close(screens, models_of(app), app.clock().now()); });
    window.run([&] {
        for (const auto& path : window.take_dropped())
            screens.drop_file(path);
        const bool may_go = draw_and_act(screens, keeping, app);
        viewer.follow(app.notice());
        if (may_go || is_told_to_end())
            window.close();
        if (keeping.is_behind())
            window.look_in_again(soon);
    });
    keeping.end(screens, models_of(app), app.clock().now());
}

/// Shows in the window how far an older book is, once that takes longer than people wait without a word, ten
/// times a second at most.
mellowbin::Progress shown_in(Window& window) {
    using namespace std::chrono_literals;
    return [&window, next = std::chrono::steady_clock::now() + 700ms](std::string_view what,
                                                                      double share) mutable {
        if (std::chrono::steady_clock::now() < next)
            return;
        window.picture([&] { views::draw_opening(what, share); });
        next = std::chrono::steady_clock::now() + 100ms;
    };
}

WindowSetup window_for(const Opening& opening) {
    WindowSetup setup;
    setup.title = "mellowbin";
    setup.width = opening.width;
    setup.height = opening.height;
    setup.shown = opening.shot.empty() ? Shown::yes : Shown::no;
    setup.text_size = opening.text_size;
    setup.palette = opening.palette;
    setup.probing = opening.open.empty() ? Probing::off : Probing::on;
    return setup;
}

} // namespace

int open_window(const app::AppSetup& setup, const Opening& opening) {
    views::Screens screens;
    if (!opening.screen.empty()) {
        const auto screen = views::screen_named(opening.screen);
        if (!screen) {
            throw std::runtime_error(fmt::format("there is no screen \"{}\"; there are {}", opening.screen,
                                                 views::screen_names()));
        }
        screens.show(*screen);
    }
    const auto made = std::chrono::steady_clock::now();
    Window window(window_for(opening));
    auto with_progress = setup;
    if (opening.shot.empty())
        with_progress.progress = shown_in(window);
    app::App app(with_progress);
    if (!app.overview().plant.empty())
        window.set_title(app.overview().plant + " – mellowbin");
    Keeping keeping(setup.book, opening.state.empty() ? app::state_folder() : opening.state,
                    opening.shot.empty() ? app::KeptWork::Use::keep : app::KeptWork::Use::look);
    if (opening.shot.empty()) {
        run(window, screens, keeping, app);
        return 0;
    }
    for (const auto& words : opening.open)
        window.press(words, [&] { draw_and_act(screens, keeping, app); });
    window.shot(opening.shot, [&] { draw_and_act(screens, keeping, app); });
    const double before = std::chrono::duration<double>(made - opening.started).count();
    fmt::print("Picture written to {}; the first frame was there {:.2f} s after the start\n", opening.shot,
               before + window.seconds_to_first_picture());
    return 0;
}

} // namespace mellowbin::ui
