#include "first_window.h"

#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/setting_up.h"
#include "app/models/settings.h"
#include "ui/views/welcome/welcome.h"

#include <atomic>
#include <unistd.h>

namespace mellowbin::tests {

FirstWindow::FirstWindow() {
    static std::atomic<int> count{0};
    folder_ = std::filesystem::temp_directory_path() /
              ("mellowbin-journey-" + std::to_string(::getpid()) + "-" + std::to_string(count++));
    std::filesystem::create_directories(folder_);
    open_again();
}

FirstWindow::~FirstWindow() {
    screen_.reset();
    start_.reset();
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

void FirstWindow::open_again() {
    screen_.reset(); // one frame at a time
    start_.reset();
    start_ =
        std::make_unique<app::FirstStart>(app::AppSetup{book(), "Ada", app::Clock::standing_at(today())});
    screens_ = std::make_unique<views::Screens>();
    if (!start_->welcomes())
        screens_->assistant.begin(app().setting_up());
    screen_ = std::make_unique<testing::Screen>([this] { draw(); });
}

void FirstWindow::draw() {
    if (start_->welcomes()) {
        const auto wish = views::draw_welcome(start_->welcome());
        if (wish == views::WelcomeWish::none)
            return;
        wish == views::WelcomeWish::set_up ? start_->set_up() : start_->look_at_demo();
        if (!start_->welcomes())
            screens_->assistant.begin(app().setting_up());
        return;
    }
    auto& a = app();
    a.poll();
    app::Intents did;
    views::draw(*screens_,
                {a.notice(), a.overview(), a.intake(), a.lots(), a.readiness(), a.plan(), a.mixer(),
                 a.plant(), a.settings(), a.setting_up(), a.trace()},
                did);
    for (const auto& act : did)
        a.handle(act);
}

void FirstWindow::choose(const std::string& field, const std::string& word) {
    if (screen_->offers(field + "/" + word))
        return screen_->click(field + "/" + word);
    screen_->click(field);
    screen_->click(word);
}

void FirstWindow::tab_to(std::string_view words) {
    for (int presses = 0; presses < 100; ++presses) {
        if (screen_->focused() == words)
            return;
        screen_->press(ui::Key::tab);
    }
    throw testing::NotOnScreen("\"" + std::string(words) + "\" is not reached by Tab. On the screen:\n" +
                               screen_->words());
}

void FirstWindow::type_at(std::string_view field, std::string_view text) {
    tab_to(field);
    screen_->press(ui::Key::a, ui::Mods::ctrl);
    screen_->type(text);
}

void FirstWindow::choose_at(std::string_view field, std::string_view word) {
    tab_to(field);
    for (int presses = 0; presses < 30 && screen_->value_of(field) != word; ++presses)
        screen_->press(ui::Key::right);
    if (screen_->value_of(field) != word)
        throw testing::NotOnScreen("\"" + std::string(word) + "\" cannot be chosen. On the screen:\n" +
                                   screen_->words());
}

void FirstWindow::press_at(std::string_view button) {
    tab_to(button);
    screen_->press(ui::Key::enter);
}

} // namespace mellowbin::tests
