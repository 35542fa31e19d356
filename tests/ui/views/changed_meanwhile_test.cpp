// A form whose record another station changed while it was typed: it says so, and what was typed stays.

#include "support/catch.h"
#include "ui/models/story.h"
#include "ui/views/mixer_opened.h"
#include "ui/views/whole_window.h"

#include <algorithm>

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

constexpr std::string_view ines = "04:12, Ines";

/// Also below what is in view.
bool stands_in(const testing::Screen& screen, std::string_view words) {
    const auto& notes = screen.probe().notes();
    return std::any_of(notes.begin(), notes.end(), [&](const auto& note) {
        return note.label.find(words) != std::string::npos || note.value.find(words) != std::string::npos;
    });
}

struct OpenedLot : WholeWindow {
    explicit OpenedLot(Screen first = Screen::lots) : WholeWindow(first) {
        lots.opened = test::a_sheet();
        readiness.opened = test::a_story();
        screen.settle();
    }
};

} // namespace

TEST_CASE("The form of a retest says that another station changed its lot, on either screen") {
    for (const auto first : {Screen::lots, Screen::readiness}) {
        OpenedLot w(first);
        w.screen.click("Log a retest");
        w.screen.type("Note", "second sample");
        CHECK_FALSE(stands_in(w.screen, "Changed at another station meanwhile"));
        w.lots.opened->row.changed = w.readiness.opened->changed = ines;
        w.screen.settle();
        CHECK(
            stands_in(w.screen, "Changed at another station meanwhile: 04:12, Ines. What you typed stays."));
        const auto& form = first == Screen::lots ? w.screens.lots.retest : w.screens.readiness.story.retest;
        CHECK(form.drafts.at(LotId{6}).note == "second sample");
    }
}

TEST_CASE("A count says what the book has now, where another station counted meanwhile") {
    OpenedLot w;
    auto& question = w.screens.lots.question.emplace();
    question.deed = views::LotQuestion::Deed::count;
    question.lot = w.lots.opened->row.id;
    question.state = w.lots.opened->row.state;
    question.code = "W26-131";
    question.place = PlaceId{2};
    question.place_name = "Bay 2";
    question.booked = "4 600";
    w.screen.settle();
    w.screen.type("Counted", "4 550");
    CHECK_FALSE(stands_in(w.screen, "What you typed stays"));
    w.lots.opened->places.at(0).kg = 4500;
    w.lots.opened->row.changed = ines;
    w.screen.settle();
    CHECK(stands_in(w.screen, "Changed since this was begun (04:12, Ines)"));
    CHECK(stands_in(w.screen, "the book had 4 600 kg there and has 4 500 kg now"));
    CHECK(w.screen.value_of("Counted") == "4 550");
}

TEST_CASE("A hold says that the lot is in another state than when it was asked") {
    OpenedLot w;
    auto& question = w.screens.lots.question.emplace();
    question.deed = views::LotQuestion::Deed::hold;
    question.lot = w.lots.opened->row.id;
    question.code = "W26-131";
    question.state = w.lots.opened->row.state;
    w.screen.settle();
    w.screen.type("Reason", "insects");
    w.lots.opened->row.state = LotState::rejected;
    w.screen.settle();
    CHECK(stands_in(w.screen, "the lot is rejected now"));
    CHECK(w.screen.value_of("Reason") == "insects");
}

TEST_CASE("The change of a run says where the run stands now, and stays when the run is gone") {
    WholeWindow w(Screen::plan);
    w.screens.plan.question = views::PlanQuestion::change(w.plan.runs[1], w.plan);
    w.screen.settle();
    w.screen.type("Batches", "6");
    CHECK_FALSE(stands_in(w.screen, "What you typed stays"));
    w.plan.runs[1].day += Days{1};
    w.plan.runs[1].changed = ines;
    w.screen.settle();
    CHECK(stands_in(w.screen, "Changed since this was begun (04:12, Ines)"));
    CHECK(w.screen.value_of("Batches") == "6");
    w.plan.runs.erase(w.plan.runs.begin() + 1);
    w.screen.settle();
    CHECK(stands_in(w.screen, "another station dropped it"));
    CHECK(w.screen.value_of("Batches") == "6");
}

TEST_CASE("The correction of a limit says what the limit is now") {
    WholeWindow w(Screen::settings);
    w.screen.settle();
    w.screen.click("Propionate");
    w.screen.click("Change this limit");
    w.screen.type("Change/Source", "Ordinance 7");
    CHECK_FALSE(stands_in(w.screen, "What you typed stays"));
    w.settings.limits.back().draft.figure = "1000";
    w.settings.limits.back().changed = ines;
    w.screen.settle();
    CHECK(stands_in(w.screen, "Changed since this was begun (04:12, Ines)"));
    CHECK(stands_in(w.screen, "1000 mg/kg"));
    CHECK(w.screen.value_of("Change/Source") == "Ordinance 7");
}

TEST_CASE("A choice that is typed says what another station chose") {
    WholeWindow w(Screen::settings);
    w.screen.settle();
    w.screen.click("The plant's choices");
    w.screen.type("Confidence of a ready date", "0,7");
    CHECK_FALSE(stands_in(w.screen, "What you typed stays"));
    w.settings.settings[1].value = "0.90";
    w.settings.settings[1].who = "Ines";
    w.settings.settings[1].since = "2026-11-25";
    w.screen.settle();
    CHECK(stands_in(w.screen, "Changed since this was begun (by Ines, 2026-11-25): it is 0.90 now"));
    CHECK(w.screen.value_of("Confidence of a ready date") == "0,7");
}

TEST_CASE("Ingredients that are typed say what another station kept") {
    WholeWindow w(Screen::settings);
    w.screens.settings.page = 5;
    w.screen.settle();
    w.screen.click("Add an ingredient");
    CHECK_FALSE(stands_in(w.screen, "What you typed stays"));
    w.settings.doughs.doughs.front().ingredients = {{"Salt", "1.9", "", ""}};
    w.settings.doughs.doughs.front().changed = ines;
    w.screen.settle();
    CHECK(stands_in(w.screen, "the book has Salt 1.9 %"));
    CHECK(w.screen.offers("Keep these ingredients"));
}

TEST_CASE(
    "What was typed for a batch that another station logged meanwhile can still be read, and thrown away") {
    test::OpenedMixer o;
    const auto batch = views::shown_batch(*o.model.card);
    o.view.given.begin(batch).water = "31,5";
    ++o.model.card->batch;
    o.screen.settle();
    CHECK(stands_in(o.screen, "was logged meanwhile. What you typed for it: water 31,5"));
    o.screen.click("Throw it away");
    CHECK_FALSE(stands_in(o.screen, "31,5"));
    CHECK(o.view.given.drafts.find(batch) == o.view.given.drafts.end());
}
