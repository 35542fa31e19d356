#include "app/acts/limits.h"
#include "app/acts/settings.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

TEST_CASE("Unconfirmed limits of one's own markets are said first") {
    WholeWindow window(Screen::settings);
    CHECK(window.screen.says("1 limit of your markets is not confirmed"));
    CHECK(window.screen.value_of("Azodicarbonamide").find("not confirmed") != std::string::npos);
}

TEST_CASE("A limit is confirmed only after its words were put before the person") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    window.screens.settings.limits.selected = 2;
    screen.settle();
    screen.click("Confirm this limit");
    CHECK(screen.says("Confirm this limit?"));
    CHECK(screen.says("your name stands in the journal as the one who answers for it"));
    CHECK(window.did.empty());
    screen.press(ui::Key::escape);
    CHECK(window.did.empty());
    screen.click("Confirm this limit");
    screen.click("Confirm this limit");
    CHECK(window.last<app::ConfirmLimit>().row == 2);
}

TEST_CASE("A person can look at those limits only that wait for somebody to confirm them") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    screen.click("Only those of your markets that are not confirmed");
    CHECK(screen.says("Azodicarbonamide"));
    CHECK_FALSE(screen.says("Potassium bromate"));
    window.settings.limits[1].is_confirmed = true;
    screen.settle();
    CHECK(screen.says("Every limit of your markets is confirmed."));
}

TEST_CASE("A confirmed limit offers no confirming") {
    WholeWindow window(Screen::settings);
    window.screens.settings.limits.selected = 1;
    window.screen.settle();
    CHECK(window.screen.says("confirmed by Ines"));
    CHECK_FALSE(window.screen.offers("Confirm this limit"));
}

TEST_CASE("Published numbers show unit, range and standing, and where one comes from") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    screen.click("Published numbers");
    CHECK(screen.value_of("aging.rate_at_25").find("0.081 | 1/d | 0.05 to 0.14 | read") != std::string::npos);
    CHECK(screen.value_of("oxidant.half_effect").find("from memory") != std::string::npos);
    screen.click("aging.rate_at_25");
    CHECK(screen.says("white flour, stored in bags"));
}

TEST_CASE("A choice is kept as typed, and its refusal stands beside it") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    screen.click("The plant's choices");
    screen.type("Confidence of a ready date", "1,8");
    screen.press(ui::Key::enter);
    CHECK(window.last<app::ChangeSetting>().key == "confidence");
    CHECK(window.last<app::ChangeSetting>().value == "1,8");
    window.tell(
        test::refused(1, {{"Confidence of a ready date", "1,8 was read; from 0.5 to 0.99 is expected", ""}}));
    CHECK(screen.value_of("Confidence of a ready date") == "1,8");
    CHECK(screen.find("1,8 was read; from 0.5 to 0.99 is expected").kind == ui::Kind::refusal);

    screen.type("Confidence of a ready date", "0,9");
    screen.click("Keep");
    window.settings.settings[1].value = "0.9";
    window.tell(test::done(2, "Confidence of a ready date: 0.9 (was 0.80)"));
    CHECK(screen.value_of("Confidence of a ready date") == "0.9");
    CHECK_FALSE(screen.offers("Keep"));
}

TEST_CASE("A changed choice can be put back before it is kept") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    screen.click("The plant's choices");
    screen.type("Plant", "Other");
    screen.click("As before");
    CHECK(screen.value_of("Plant") == "Riverside Bakery");
    CHECK(window.did.empty());
}

TEST_CASE("The journal is read newest first, with who and when") {
    WholeWindow window(Screen::settings);
    window.screen.click("Journal");
    CHECK(window.screen.value_of("2026-11-24 15:02").find("Ines | confirm_limit") != std::string::npos);
}
