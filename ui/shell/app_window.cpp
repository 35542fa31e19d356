#include "ui/shell/app_window.h"

#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/kept_work.h"
#include "app/book/setup.h"
#include "app/demo/first_start.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/setting_up.h"
#include "app/models/settings.h"
#include "db/progress.h"
#include "ui/shell/keeping.h"
#include "ui/shell/serial_port.h"
#include "ui/shell/told_to_end.h"
#include "ui/shell/viewer.h"
#include "ui/shell/window.h"
#include "ui/views/opening.h"
#include "ui/views/screens.h"
#include "ui/views/welcome/welcome.h"

#include <fmt/format.h>

#include <optional>
#include <stdexcept>
#include <utility>

namespace mellowbin::ui {
namespace {

views::Models models_of(const app::App& app) {
    return {app.notice(), app.overview(), app.intake(),   app.lots(),       app.readiness(), app.plan(),
            app.mixer(),  app.plant(),    app.settings(), app.setting_up(), app.trace()};
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

/// Draws in the window how far a work is, once it takes longer than people wait without a word, ten times a
/// second at most.
mellowbin::Progress shown_in(Window& window, void (*draw)(std::string_view what, double share)) {
    using namespace std::chrono_literals;
    return [&window, draw, next = std::chrono::steady_clock::now() + 700ms](std::string_view what,
                                                                            double share) mutable {
        if (std::chrono::steady_clock::now() < next)
            return;
        window.picture([&] { draw(what, share); });
        next = std::chrono::steady_clock::now() + 100ms;
    };
}

app::Scanned scanned_of(CaughtScan scan) {
    using Scanned = app::Scanned;
    const auto end = scan.end == CaughtScan::End::enter ? Scanned::End::enter
                     : scan.end == CaughtScan::End::tab ? Scanned::End::tab
                                                        : Scanned::End::pause;
    return {std::move(scan.bytes), Scanned::Way::keys, end, scan.seconds_a_key};
}

/// The screens on a book with a plant, and before that the welcome. What a person chose there is done after
/// the frame: it draws pictures of its own.
class AppWindow {
public:
    AppWindow(Window& window, app::FirstStart& start, views::Screens& screens, const Opening& opening)
        : window_(window), start_(start), screens_(screens), opening_(opening) {
        begin(opening_.screen.empty());
    }

    void frame() {
        if (keeping_) {
            hear_scanner();
            may_go_ = draw_and_act(screens_, *keeping_, *start_.app()) || may_go_;
            viewer_.follow(start_.app()->notice());
        } else if (const auto wish = views::draw_welcome(start_.welcome());
                   wish != views::WelcomeWish::none) {
            wish_ = wish; // of any of the frames that are drawn until all is settled
        }
        if (!keeping_)
            window_.take_scans(); // no book, nothing to scan
    }
    void after_frame() {
        if (wish_ == views::WelcomeWish::none)
            return;
        if (std::exchange(wish_, views::WelcomeWish::none) == views::WelcomeWish::set_up)
            start_.set_up();
        else
            start_.look_at_demo(shown_in(window_, views::draw_making_demo));
        begin(true);
        window_.picture([this] { frame(); });
    }
    /// Until the person closes the window, or the program is told to end.
    void run() {
        constexpr double soon = 0.1;
        hear_when_told_to_end();
        window_.ask_before_closing(
            [&] { return !keeping_ || keeping_->may_close(screens_, models(), now()); });
        window_.run(
            [&] {
                for (const auto& path : window_.take_dropped())
                    if (keeping_)
                        screens_.drop_file(path);
                frame();
                if (may_go_ || is_told_to_end())
                    window_.close();
                if (keeping_ && keeping_->is_behind())
                    window_.look_in_again(soon);
            },
            [&] { after_frame(); });
        if (keeping_)
            keeping_->end(screens_, models(), now());
    }

private:
    /// What scanners sent goes to the screen that is shown, one a frame.
    void hear_scanner() {
        constexpr double soon = 0.02;
        const auto& setup = start_.app()->settings().scanner;
        window_.set_longest_scanner_gap(setup.longest_gap);
        for (auto& scan : window_.take_scans())
            screens_.scanned(scanned_of(std::move(scan)));
        if (!opening_.shot.empty())
            return; // a picture takes no port away from a window
        port_.listen_at(setup.port);
        for (auto& scan : port_.take_scans())
            screens_.scanned(std::move(scan));
        if (const auto news = port_.take_news())
            start_.app()->handle(*news);
        if (screens_.has_scans())
            window_.look_in_again(soon);
    }
    /// The book is open, unless a person is still to choose.
    void begin(bool shows_assistant) {
        if (start_.welcomes())
            return;
        const auto& overview = start_.app()->overview();
        if (!overview.plant.empty())
            window_.set_title(overview.plant + " – mellowbin");
        if (shows_assistant)
            screens_.assistant.begin(start_.app()->setting_up());
        keeping_.emplace(overview.book, opening_.state.empty() ? app::state_folder() : opening_.state,
                         opening_.shot.empty() ? app::KeptWork::Use::keep : app::KeptWork::Use::look);
    }
    [[nodiscard]] views::Models models() const { return models_of(*start_.app()); }
    [[nodiscard]] Instant now() const { return start_.app()->clock().now(); }

    Window& window_;
    app::FirstStart& start_;
    views::Screens& screens_;
    const Opening& opening_;
    std::optional<Keeping> keeping_; ///< of the book that is open; nothing: a person is welcomed
    Viewer viewer_;
    SerialPort port_{[] { Window::wake(); }};
    views::WelcomeWish wish_ = views::WelcomeWish::none;
    bool may_go_ = false;
};

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
        with_progress.progress = shown_in(window, views::draw_opening);
    app::FirstStart start(with_progress);
    AppWindow shown(window, start, screens, opening);
    if (opening.shot.empty()) {
        shown.run();
        return 0;
    }
    const auto frame = [&] { shown.frame(); };
    for (const auto& words : opening.open) {
        window.press(words, frame);
        shown.after_frame();
    }
    window.shot(opening.shot, frame);
    const double before = std::chrono::duration<double>(made - opening.started).count();
    fmt::print("Picture written to {}; the first frame was there {:.2f} s after the start\n", opening.shot,
               before + window.seconds_to_first_picture());
    return 0;
}

} // namespace mellowbin::ui
