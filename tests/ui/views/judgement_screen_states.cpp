#include "app/models/lot_verdict.h"
#include "support/iso.h"
#include "ui/models/lots.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;
using Deed = views::LotQuestion::Deed;

void failing_lot(WholeWindow& w) {
    w.lots.opened = a_sheet();
    w.lots.opened->failing = {"Falling number 262 s, below 280 to 350 s"};
    w.lots.opened->products = {"Pan bread", "Bun", "Burger bun with sesame"};
    using Stands = ComparedResult::Verdict;
    w.lots.opened->agreements = {
        {RetestId{4}, plan_today() - Days{1}, Property::falling_number, Stands::contradicts, -114.0, 32.0,
         "contradicts: differs 114 s, only up to 32 s is chance (R, ring test 4, from memory)", "", false},
        {RetestId{4},
         plan_today() - Days{1},
         Property::absorption,
         Stands::not_said,
         0.6,
         {},
         "no published R at hand for absorption by ICC 115/1",
         "flour ages: +0.4 % of +0.6 % is what 12 days are expected to make, an estimate",
         false}};
    w.lots.opened->verdict = app::lot_verdict(*w.lots.opened, plan_today());
}

void conceded(WholeWindow& w, bool is_over) {
    failing_lot(w);
    auto& sheet = *w.lots.opened;
    const auto until = plan_today() + Days{is_over ? -5 : 2};
    sheet.concession =
        app::ConcessionShown{"Falling number 262 s",
                             "Ines",
                             "Pan bread",
                             until,
                             is_over,
                             {"Falling number 262 s", "Ines", iso(until), {"Pan bread"}, false}};
    sheet.row.state = LotState::released;
    sheet.row.standing = {is_over ? "concession ended 20 Nov" : "concession until 27 Nov", is_over, {}};
    for (auto& row : w.lots.rows)
        if (row.id == sheet.row.id) {
            row.state = sheet.row.state;
            row.standing = sheet.row.standing;
        }
    ++w.lots.made;
    sheet.verdict = app::lot_verdict(sheet, plan_today());
}

std::function<void(WholeWindow&)> asked(Deed deed, bool with_concession) {
    return [deed, with_concession](WholeWindow& w) {
        if (deed == Deed::judge_anew)
            conceded(w, true);
        else
            failing_lot(w);
        views::LotQuestion question;
        question.deed = deed;
        question.lot = LotId{6};
        question.code = "W26-131";
        question.state = w.lots.opened->row.state;
        question.with_concession = with_concession;
        question.concession = {"Falling number 262 s, below 280 to 350 s", "", "2026-11-10", {"Bun"}, false};
        question.asked.refusals = {{"Until", "2026-11-10 was read, which is over: today is 2026-11-25",
                                    "Enter today or a later day"},
                                   {"Reason", "is empty", "Say why, in a few words"},
                                   {"From", "nothing of the lot lies there", "Look where it lies"},
                                   {"For products", "\"Rye\" is not known", "Choose one of: Pan bread, Bun"}};
        w.screens.lots.question = question;
    };
}

void precision(WholeWindow& w) {
    w.settings.precision = {{7,
                             "Protein",
                             "ISO 20483 | ICC 105/2",
                             "R 0.5 %; means of 1 and 2",
                             "8 to 18",
                             "ISO 20483, table B.1",
                             "entered by Ines, 2026-11-02",
                             {"protein", "ISO 20483 | ICC 105/2", "", "0.5", "absolute", "8", "18", "", "2",
                              "ISO 20483, table B.1"},
                             "04:12, Tomas"},
                            {0,
                             "Falling number",
                             "ISO 3093 | ICC 107/1",
                             "r 10 % of the mean",
                             "",
                             "duplicates within 10 %",
                             "from memory",
                             {"falling_number", "", "10", "", "relative", "", "", "", "", ""},
                             ""}};
    w.screens.settings.page = views::SettingsView::last_page;
}

void precision_refused(WholeWindow& w) {
    precision(w);
    w.screens.settings.precision.table.selected = 7;
    auto& form = w.screens.settings.precision.form;
    form.open_for(7, w.settings.precision.front().draft);
    form.drafts[7].R = "0.1";
    form.refuse(7, {{"r", "0.2 was read, which is above R, 0.1", "Check both"},
                    {"Determinations, ours", "\"1.5\" was read; a whole number is expected", "Enter one"}});
}

} // namespace

std::vector<ScreenState> judgement_screen_states() {
    return {
        {"lots, releasing what fails", Screen::lots, asked(Deed::release, false)},
        {"lots, conceding refused", Screen::lots, asked(Deed::release, true)},
        {"lots, a concession", Screen::lots, [](WholeWindow& w) { conceded(w, false); }},
        {"lots, a concession over", Screen::lots, [](WholeWindow& w) { conceded(w, true); }},
        {"lots, judging anew refused", Screen::lots, asked(Deed::judge_anew, false)},
        {"lots, back to the mill refused", Screen::lots, asked(Deed::to_mill, false)},
        {"settings, test precision", Screen::settings, precision},
        {"settings, test precision refused", Screen::settings, precision_refused},
    };
}

} // namespace mellowbin::test
