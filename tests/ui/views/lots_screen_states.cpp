#include "app/models/lot_verdict.h"
#include "ui/models/doughs.h"
#include "ui/models/story.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;
using Deed = views::LotQuestion::Deed;

void opened(WholeWindow& w) { w.lots.opened = a_sheet(); }

/// A page of the opened lot's sheet.
std::function<void(WholeWindow&)> page_of(int page) {
    return [page](WholeWindow& w) {
        opened(w);
        w.screens.lots.page = page;
    };
}

void every_result(WholeWindow& w) {
    opened(w);
    w.readiness.opened = a_story();
    w.screens.lots.shows_every_result = true;
}

void past_its_best(WholeWindow& w) {
    opened(w);
    auto& sheet = *w.lots.opened;
    sheet.row.state = LotState::released;
    sheet.row.readiness = app::Readiness::past_best;
    sheet.verdict = app::lot_verdict(sheet, plan_today());
}

void two_found(WholeWindow& w) {
    w.overview.found = {"w26-131",
                        {{LotId{6}, {}, "W26-131", "Harrow Mill, Strong white, in quarantine, 9600 kg"},
                         {LotId{3}, {}, "W26-131", "Kestrel Mill, Hearth, used up on 2026-10-03"}},
                        true};
}

std::function<void(WholeWindow&)> asked(Deed deed) {
    return [deed](WholeWindow& w) {
        opened(w);
        views::LotQuestion question;
        question.deed = deed;
        question.lot = LotId{6};
        question.code = "W26-131";
        question.state = w.lots.opened->row.state;
        question.place = PlaceId{2};
        question.place_name = "Bay 2";
        question.booked = "4 600";
        question.movement_words = "move: 5 000 kg from Bay 2 to Silo 1";
        question.asked.refusals = {
            {"Weight", "9000 kg is more than the 4600 kg there", "Count the place"},
            {"Reason", "is empty", "Say why, in a few words"},
            {"Until", "2026-11-10 was read, which is over: today is 2026-11-25",
             "Enter today or a later day"},
            {"Lot W26-131", "is rejected and cannot become released", "Hold it first"}};
        w.screens.lots.question = question;
    };
}

void story(WholeWindow& w) { w.readiness.opened = a_story(); }

void story_of_nothing(WholeWindow& w) { w.readiness.opened = a_bare_story(); }

void story_as_tables(WholeWindow& w) {
    story(w);
    auto& charts = w.screens.readiness.story.charts;
    charts.maturity_as_table = charts.results_as_table = charts.storage_as_table = true;
}

Refusals of_a_retest() {
    return {
        {"Taken on", "2026-11-30 was read, which is after today, 2026-11-25",
         "Log a result once the sample has been taken"},
        {"Extensibility", "\"x\" was read; a number is expected", "Type digits"},
        {"Glutathione, reduced", "41.5 nmol/g was read without its moisture basis",
         "See at which moisture the figure is stated"},
        {"Results", "no figure was read; one at least is expected", "Enter what the laboratory measured"}};
}

RetestDraft a_retest() {
    RetestDraft draft;
    draft.taken_on = "2026-11-30";
    draft.place = "Bay 2";
    draft.figure(Property::extensibility).value = "x";
    draft.figure(Property::glutathione).value = "41,5";
    draft.note = "second oven was off";
    return draft;
}

void refuse_retest(views::RetestForm& form) {
    form.is_open = true;
    form.drafts[LotId{6}] = a_retest();
    form.refuse(LotId{6}, of_a_retest());
}

void retest_refused(WholeWindow& w) {
    story(w);
    refuse_retest(w.screens.readiness.story.retest);
}

void lots_retest_refused(WholeWindow& w) {
    opened(w);
    story(w);
    refuse_retest(w.screens.lots.retest);
}

void withdrawing(WholeWindow& w) {
    story(w);
    auto& question = w.screens.readiness.story.withdrawing.emplace();
    question.what = RetestId{2};
    question.words =
        "Retest of 2026-11-24, Bay 2, by Tomas: Resistance 471 EU, Glutathione, reduced 41.5 nmol/g";
    question.asked.refusals = {{"Reason", "is empty", "Say why, in a few words"}};
}

void baked(WholeWindow& w) {
    opened(w);
    w.lots.opened->ladders = two_ladders();
    w.lots.opened->substances = {"Ascorbic acid", "Potassium bromate", "Azodicarbonamide"};
    w.screens.lots.page = 3;
    w.screen.settle();
    w.screen.click("Log a loaf");
}

void loaf_refused(WholeWindow& w) {
    baked(w);
    auto& form = w.screens.lots.bakes.form;
    form.drafts[LotId{6}].dose = "400";
    form.refuse(LotId{6},
                {{"Oxidant", "is empty; one of 3 is expected", "Choose one"},
                 {"Dose", "400 was read; from 0 to 300 mg/kg is expected", "Check the comma"},
                 {"Size", "\"x\" was read; a number is expected", "Type digits"},
                 {"Baked on", "2026-12-24 was read, which is after today, 2026-11-25", "Log it then"},
                 {"Lot W26-131", "is rejected", "Choose another"}});
}

void withdrawing_loaf(WholeWindow& w) {
    opened(w);
    auto& question = w.screens.lots.withdrawing.emplace();
    question.what = BakeId{4};
    question.words = "Ascorbic acid, 2026-11-24: 40 mg/kg, 1064 ml";
    question.asked.refusals = {{"Reason", "is empty", "Say why, in a few words"}};
}

void all_done_with_undo(WholeWindow& w) {
    w.notice = done(1, "Lot W26-131 released");
    w.notice.undo = "Undo: hold lot W26-131 again";
}

} // namespace

std::vector<ScreenState> lots_screen_states() {
    std::vector<ScreenState> all;
    const auto add = [&](const char* name, Screen screen, std::function<void(WholeWindow&)> begin) {
        all.push_back({name, screen, std::move(begin)});
    };
    add("lots, empty", Screen::lots, empty_book);
    add("lots, filled", Screen::lots, all_done_with_undo);
    add("lots, choosing columns", Screen::lots, [](WholeWindow& w) { w.screen.click("Choose columns"); });
    add("lots, opened", Screen::lots, opened);
    add("lots, every result", Screen::lots, every_result);
    add("lots, aging", Screen::lots, page_of(1));
    add("lots, places", Screen::lots, page_of(2));
    add("lots, bakes", Screen::lots, page_of(3));
    add("lots, history", Screen::lots, page_of(4));
    add("lots, past its best", Screen::lots, past_its_best);
    add("lots, two were found", Screen::lots, two_found);
    add("lots, releasing", Screen::lots, asked(Deed::release));
    add("lots, holding refused", Screen::lots, asked(Deed::hold));
    add("lots, extending refused", Screen::lots, asked(Deed::extend));
    add("lots, bringing back refused", Screen::lots, asked(Deed::give_back));
    add("lots, moving refused", Screen::lots, asked(Deed::move));
    add("lots, counting", Screen::lots, asked(Deed::count));
    add("lots, writing off refused", Screen::lots, asked(Deed::waste));
    add("lots, taking back", Screen::lots, asked(Deed::take_back));
    add("lots, retest refused", Screen::lots, lots_retest_refused);
    add("lots, a loaf to be logged", Screen::lots, baked);
    add("lots, loaf refused", Screen::lots, loaf_refused);
    add("lots, withdrawing a loaf", Screen::lots, withdrawing_loaf);
    add("lots, failed", Screen::lots, failure);
    add("lots, busy", Screen::lots, busy);
    add("readiness, empty", Screen::readiness, empty_book);
    add("readiness, filled", Screen::readiness, nothing);
    add("readiness, as table", Screen::readiness,
        [](WholeWindow& w) { w.screens.readiness.as_table = true; });
    add("readiness, opened", Screen::readiness, story);
    add("readiness, opened as tables", Screen::readiness, story_as_tables);
    add("readiness, opened with nothing known", Screen::readiness, story_of_nothing);
    add("readiness, retest refused", Screen::readiness, retest_refused);
    add("readiness, withdrawing refused", Screen::readiness, withdrawing);
    add("readiness, failed", Screen::readiness, failure);
    return all;
}

} // namespace mellowbin::test
