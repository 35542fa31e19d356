#include "app/acts/limits.h"
#include "app/acts/settings.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"
#include "ui/widgets/laid_out.h"

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
    CHECK(window.last<app::ConfirmLimit>().row == LimitRef{LimitRef::Of::oxidants, 2});
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

namespace {

/// The limit on propionate, chosen in the table.
struct Chosen {
    WholeWindow window{Screen::settings};
    testing::Screen& screen = window.screen;
    const LimitRef limit{LimitRef::Of::propionates, 2};

    Chosen() {
        screen.settle();
        screen.click("Propionate");
    }
    void correct() {
        screen.click("Change this limit");
        screen.type("Change/Limit", "1500,5");
        screen.type("Change/Source", "Ordinance 7");
        screen.click("Keep the change");
    }
};

} // namespace

TEST_CASE("A limit on propionate stands among the others and is confirmed, as its own list's") {
    Chosen o;
    CHECK(o.screen.says("List 11 (2018)"));
    o.window.settings.limits[3].is_confirmed = false;
    o.screen.settle();
    o.screen.click("Confirm this limit");
    o.screen.click("Confirm this limit");
    CHECK(o.window.last<app::ConfirmLimit>().row == o.limit);
}

TEST_CASE("A confirmed limit is marked unconfirmed at a press") {
    Chosen o;
    o.screen.click("Mark unconfirmed");
    CHECK(o.window.last<app::DoubtLimit>().row == o.limit);
}

TEST_CASE("A limit is corrected letter by letter as it was typed, from what stands there") {
    Chosen o;
    o.screen.click("Change this limit");
    CHECK(o.screen.value_of("Change/Limit") == "2000");
    CHECK(o.screen.value_of("Source date") == "2018");
    CHECK(o.screen.says("not confirmed until somebody confirms it again"));
    o.screen.press(ui::Key::escape);
    o.screen.type("Change/Limit", "1500,5");
    o.screen.click("Keep the change");
    const auto& change = o.window.last<app::ChangeLimit>();
    CHECK(change.row == o.limit);
    CHECK(change.as == LimitDraft{"1500,5", "permitted", "List 11", "2018"});
}

TEST_CASE("A status is chosen from its list") {
    Chosen o;
    o.screen.click("Change this limit");
    o.screen.click("Status");
    o.screen.click("Unclear: the source does not settle it");
    o.screen.click("Keep the change");
    CHECK(o.window.last<app::ChangeLimit>().as.status == "unclear");
}

TEST_CASE("A refused correction of a limit keeps what was typed, each refusal beside its field") {
    Chosen o;
    o.correct();
    o.window.tell(test::refused(
        1, {{"Limit", "1500,5 was read, which is odd", "Look again"}, {"Row", "is not in the book", ""}}));
    CHECK(o.screen.value_of("Change/Limit") == "1500,5");
    CHECK(o.screen.value_of("Change/Source") == "Ordinance 7");
    CHECK(o.screen.find("1500,5 was read, which is odd. Look again").kind == ui::Kind::refusal);
    CHECK(test::tells(o.screen, "Row: is not in the book"));
    o.screen.click("Azodicarbonamide");
    CHECK_FALSE(o.screen.says("which is odd"));
    o.screen.click("Propionate");
    CHECK(o.screen.value_of("Change/Source") == "Ordinance 7");
}

TEST_CASE("An accepted correction of a limit closes its form; what failed to be written stays typed") {
    Chosen o;
    o.correct();
    o.window.tell(test::failed(1));
    o.window.tell({});
    CHECK(o.screen.value_of("Change/Source") == "Ordinance 7");
    o.screen.click("Keep the change");
    ++o.window.settings.limits_changed;
    o.window.tell(test::done(2, "Limit changed"));
    CHECK_FALSE(o.screen.offers("Keep the change"));
    o.screen.click("Change this limit");
    CHECK(o.screen.value_of("Change/Source") == "List 11");
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
    screen.type("plant/Plant", "Other");
    screen.click("As before");
    CHECK(screen.value_of("plant/Plant") == "Riverside Bakery");
    CHECK(window.did.empty());
}

TEST_CASE("A list of checks is no choice of one line: it stands on Plant, and that is said") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    screen.click("The plant's choices");
    CHECK(screen.says("the checks at the door stand on Plant"));
    CHECK(screen.offers("Flour is delivered warm from"));
    CHECK_FALSE(screen.offers("Checks at the door"));
}

TEST_CASE("A choice without a value is an empty field that takes one, and can be emptied again") {
    WholeWindow window(Screen::settings);
    auto& screen = window.screen;
    screen.click("The plant's choices");
    CHECK(screen.value_of("Own error of a test: extensibility").empty());
    screen.type("Own error of a test: extensibility", "3,5");
    screen.press(ui::Key::enter);
    CHECK(window.last<app::ChangeSetting>().value == "3,5");
    window.settings.settings[5].value = "3.5";
    window.tell(test::done(1, "Own error of a test: extensibility: 3.5"));
    screen.type("Own error of a test: extensibility", "");
    screen.press(ui::Key::enter);
    CHECK(window.last<app::ChangeSetting>().value.empty());
}

TEST_CASE("The journal is read newest first, with who and when") {
    WholeWindow window(Screen::settings);
    window.screen.click("Journal");
    CHECK(window.screen.value_of("24 Nov 15:02").find("Ines | Limit confirmed") != std::string::npos);
}
