#include "ui/models/mills.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

void record(WholeWindow& w) {
    w.plant.mill_record = a_mill_record();
    w.screens.plant.show_record(MillId{1});
}

void nothing_known(WholeWindow& w) {
    record(w);
    app::MillRecordModel none;
    none.query = w.plant.mill_record->query;
    none.mill = "Harrow Mill";
    none.plan = "no plan";
    w.plant.mill_record = none;
}

void days_refused(WholeWindow& w) {
    record(w);
    w.screens.plant.mill_record.from = "soon";
    w.screens.plant.mill_record.span.refusals = {
        {"From", "\"soon\" was read; a date such as 2026-11-25 is expected", "Enter year-month-day"}};
}

void complaint_refused(WholeWindow& w) {
    record(w);
    auto& forms = w.screens.plant.mill_record.complaints;
    forms.is_open = true;
    forms.complaint.drafts[MillId{1}] = {"W26-999", "", "", "", "-5", "2026-12-24"};
    forms.complaint.refuse(
        MillId{1}, {{"Lot", "Harrow Mill has no lot \"W26-999\"", "Check the number, or leave it empty"},
                    {"Subject", "is empty, and no property is chosen", "Say what it is about"},
                    {"Complaint", "is empty", "Say what is held against the mill, in a few words"},
                    {"Weight", "-5 was read; from 0.001 to 1000000 kg is expected", "Check the figure"},
                    {"Noticed on", "2026-12-24 was read, which is after today", "Enter the day"}});
}

void answering(WholeWindow& w) {
    record(w);
    auto& form = w.screens.plant.mill_record.complaints.answer;
    form.open_for(ComplaintId{7});
    form.refuse(ComplaintId{7}, {{"Answer", "is empty", "Say what the mill answered, in a few words"}});
}

void withdrawing(WholeWindow& w) {
    record(w);
    auto& question = w.screens.plant.mill_record.complaints.taking_back;
    question.emplace();
    question->what = ComplaintId{7};
    question->words = "Protein, lot W26-118, 24000 kg: lower than ordered";
}

void to_be_tested(WholeWindow& w) {
    w.lots.opened = a_sheet();
    w.lots.opened->mill = MillId{1};
    w.lots.opened->own_test = {"Test this lot, 2 samples: tightened since W26-120: W26-118, W26-120 were out",
                               "ISO 2859-1, from memory", true};
}

void coming_to_be_tested(WholeWindow& w) {
    w.intake.has_test_plan = true;
    w.intake.own_test = {
        "No own test due: reduced since W26-120: one lot in 4 is drawn, and this one was not",
        "ISO 2859-1, from memory", false};
    auto& draft = w.screens.intake.delivery.at_hand().draft;
    draft.mill = "Harrow Mill";
    draft.flour = "Strong white";
    draft.code = "W26-140";
}

} // namespace

std::vector<ScreenState> mill_screen_states() {
    return {
        {"plant, mill record", Screen::plant, record},
        {"plant, nothing known of a mill", Screen::plant, nothing_known},
        {"plant, days of a record refused", Screen::plant, days_refused},
        {"plant, complaint refused", Screen::plant, complaint_refused},
        {"plant, complaint answered", Screen::plant, answering},
        {"plant, complaint withdrawn", Screen::plant, withdrawing},
        {"lots, to be tested", Screen::lots, to_be_tested},
        {"intake, not to be tested", Screen::intake, coming_to_be_tested},
    };
}

} // namespace mellowbin::test
