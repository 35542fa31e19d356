#include "support/catch.h"
#include "support/screen.h"
#include "ui/views/welcome/welcome.h"

using namespace mellowbin;
using views::WelcomeWish;

namespace {

struct Welcome {
    app::WelcomeModel model{"/data/plant.mbook", "/data/demo.mbook", false, false, ""};
    WelcomeWish wish = WelcomeWish::none;
    testing::Screen screen;
    explicit Welcome(ui::FrameSetup setup = {})
        : screen(
              [this] {
                  if (const auto pressed = views::draw_welcome(model); pressed != WelcomeWish::none)
                      wish = pressed;
              },
              setup) {}
};

} // namespace

TEST_CASE("The welcome has two ways, and says what file each of them makes or opens") {
    Welcome welcome;
    CHECK(welcome.screen.says("Makes your book, /data/plant.mbook"));
    CHECK(welcome.screen.says("Makes demo.mbook, a book of its own"));
    welcome.screen.click("Set up your plant");
    CHECK(welcome.wish == WelcomeWish::set_up);
    welcome.screen.click("Look at the demo");
    CHECK(welcome.wish == WelcomeWish::look_at_demo);
    welcome.model.has_book = welcome.model.has_demo = true;
    welcome.screen.settle();
    CHECK(welcome.screen.says("In your book plant.mbook"));
    CHECK(welcome.screen.says("Opens demo.mbook"));
}

TEST_CASE("What stood against the way chosen is told on the welcome") {
    Welcome welcome;
    welcome.model.trouble = "The folder /data cannot be made: Permission denied. Nothing was changed.";
    welcome.screen.settle();
    CHECK(welcome.screen.says("Permission denied"));
    CHECK(welcome.screen.offers("Look at the demo"));
}

TEST_CASE("Both ways are reached at twice the text size and in a small window") {
    Welcome welcome({.width = 640, .height = 480, .text_size = 2});
    welcome.screen.click("Look at the demo");
    CHECK(welcome.wish == WelcomeWish::look_at_demo);
    welcome.screen.click("Set up your plant");
    CHECK(welcome.wish == WelcomeWish::set_up);
}

TEST_CASE("The making of the demo says how far it is") {
    testing::Screen screen([] { views::draw_making_demo("day 45 of 90", 0.5); });
    CHECK(screen.says("day 45 of 90, about 50 %"));
}
