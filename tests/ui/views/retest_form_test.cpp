#include "app/acts/retests.h"
#include "support/catch.h"
#include "ui/models/story.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

/// Readiness with lot W26-131 opened and its retest's form.
struct OpenForm : WholeWindow {
    explicit OpenForm(Screen first = Screen::readiness) : WholeWindow(first) {
        readiness.opened = test::a_story();
        lots.opened = test::a_sheet();
        screen.settle();
        screen.click("Log a retest");
    }
    void type_some() {
        screen.type("Taken on", "2026-11-24");
        screen.type("Extensograph resistance/Extensograph resistance", "352,5");
        screen.type("Extensograph resistance/Method", "45 min");
        screen.type("Glutathione, reduced/Glutathione, reduced", "41,5");
    }
    void log(std::uint64_t number) {
        ++readiness.retests_logged;
        tell(test::done(number, "Retest of W26-131 logged"));
    }
};

const std::string& value_of(const RetestDraft& draft, Property property) {
    for (const auto& figure : draft.figures)
        if (figure.property == property)
            return figure.value;
    throw std::runtime_error("the draft has no such figure");
}

} // namespace

TEST_CASE("A retest is logged letter by letter as it was typed, on either screen") {
    for (const auto first : {Screen::readiness, Screen::lots}) {
        OpenForm o(first);
        o.type_some();
        o.screen.click("Retest/Place/Place");
        o.screen.click("Retest/Place/Bay 2");
        o.screen.click("Glutathione, reduced/Basis/Basis");
        o.screen.click("14 % moisture");
        o.screen.type("Note", "second sample");
        o.screen.click("Log the retest");
        const auto& act = o.last<app::LogRetest>();
        CHECK(act.lot == LotId{6});
        CHECK(act.retest.taken_on == "2026-11-24");
        CHECK(act.retest.place == "Bay 2");
        CHECK(act.retest.note == "second sample");
        CHECK(value_of(act.retest, Property::extensograph_resistance) == "352,5");
        CHECK(value_of(act.retest, Property::glutathione) == "41,5");
        CHECK(value_of(act.retest, Property::extensibility).empty());
    }
}

TEST_CASE("The form is worked by keys alone: it opens at its first field, Enter logs") {
    OpenForm o;
    CHECK(o.screen.focused() == "Taken on");
    o.screen.type("2026-11-24");
    o.screen.press(ui::Key::enter);
    CHECK(o.last<app::LogRetest>().retest.taken_on == "2026-11-24");
}

TEST_CASE("The place may stay unsaid: the lot as a whole") {
    OpenForm o;
    CHECK(o.screen.value_of("Retest/Place/Place") == "The lot as a whole");
    o.screen.click("Retest/Place/Place");
    o.screen.click("Silo 1");
    o.screen.click("Retest/Place/Place");
    o.screen.click("The lot as a whole");
    o.screen.click("Log the retest");
    CHECK(o.last<app::LogRetest>().retest.place.empty());
}

TEST_CASE("A refused retest keeps what was typed, each refusal beside its field") {
    OpenForm o;
    auto& screen = o.screen;
    o.type_some();
    screen.click("Log the retest");
    o.tell(test::refused(
        1, {{"Taken on", "2026-11-24 was read, which is before the milling", "Check the day"},
            {"Extensibility", "0 was read; from 1 to 400 mm is expected", "Check the figure"},
            {"Results", "no figure was read; one at least is expected", "Enter what was measured"}}));
    CHECK(screen.value_of("Extensograph resistance/Extensograph resistance") == "352,5");
    CHECK(screen.value_of("Glutathione, reduced/Glutathione, reduced") == "41,5");
    const auto& day = screen.find("2026-11-24 was read, which is before the milling. Check the day");
    CHECK(day.kind == ui::Kind::refusal);
    CHECK(day.rect.top >= screen.find("Taken on").rect.bottom);
    CHECK(screen.find("0 was read; from 1 to 400 mm is expected. Check the figure").kind ==
          ui::Kind::refusal);
    // Of no field of the form, yet not in silence.
    screen.find("Results: no figure was read; one at least is expected. Enter what was measured");
}

TEST_CASE("A retest that failed to be written comes back as typed") {
    OpenForm o;
    o.type_some();
    o.screen.click("Log the retest");
    o.tell(test::failed(1));
    o.tell({});
    CHECK(o.screen.value_of("Extensograph resistance/Extensograph resistance") == "352,5");
}

TEST_CASE("A logged retest empties the form") {
    OpenForm o;
    o.type_some();
    o.screen.click("Log the retest");
    o.log(1);
    CHECK_FALSE(o.screen.offers("Log the retest"));
    o.screen.click("Log a retest");
    CHECK(o.screen.value_of("Extensograph resistance/Extensograph resistance").empty());
    CHECK(o.screen.value_of("Taken on").empty());
}

TEST_CASE("A retest logged elsewhere does not empty what is being typed here") {
    OpenForm o;
    o.type_some();
    o.log(1);
    CHECK(o.screen.value_of("Extensograph resistance/Extensograph resistance") == "352,5");
}

TEST_CASE("Closing the form or opening another lot loses nothing that was typed") {
    OpenForm o;
    o.type_some();
    o.screen.click("Close form");
    o.screen.click("Log a retest");
    CHECK(o.screen.value_of("Extensograph resistance/Extensograph resistance") == "352,5");
    auto other = test::a_bare_story();
    other.lot = LotId{5};
    other.code = "W26-127";
    o.readiness.opened = other;
    o.screen.settle();
    CHECK(o.screen.says("Retest of W26-127"));
    CHECK(o.screen.value_of("Extensograph resistance/Extensograph resistance").empty());
    o.readiness.opened = test::a_story();
    o.screen.settle();
    CHECK(o.screen.value_of("Extensograph resistance/Extensograph resistance") == "352,5");
}

TEST_CASE("Refusals of one lot's retest do not stand at another's") {
    OpenForm o;
    o.screen.click("Log the retest");
    o.tell(test::refused(1, {{"Taken on", "is wrong", "Check it"}}));
    CHECK(o.screen.says("is wrong. Check it"));
    o.readiness.opened->lot = LotId{5};
    o.screen.settle();
    CHECK_FALSE(o.screen.says("is wrong. Check it"));
}

TEST_CASE("The Lots sheet shows the opened lot's results, and withdraws one") {
    OpenForm o(Screen::lots);
    o.screen.click("Close form");
    o.screen.click("Show every result");
    o.screen.click("Results/1/Withdraw");
    o.screen.type("Reason", "wrong lot");
    o.screen.press(ui::Key::enter);
    CHECK(o.last<app::WithdrawRetest>().retest == RetestId{1});
}
