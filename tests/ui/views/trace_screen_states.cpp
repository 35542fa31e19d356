#include "ui/models/trace.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

void nothing_traced(WholeWindow& w) { empty_book(w); }

void lot_traced(WholeWindow& w) {
    w.trace = a_traced_lot();
    w.screens.trace.of = "W26-118";
}

void fields_refused(WholeWindow& w) {
    auto& view = w.screens.trace;
    view.asks = 1;
    view.of = "Rye";
    view.day = "soon";
    view.looked_for.refusals = {
        {"Product", "\"Rye\" is not known", "Choose one of: Pan bread"},
        {"Day", "\"soon\" was read; a date such as 2026-11-25 is expected", "Enter year-month-day"}};
}

void asked_to_hold(WholeWindow& w) {
    lot_traced(w);
    w.screens.trace.holding.emplace();
    w.screens.trace.holding->asked.refusals = {{"Reason", "is empty", "Say why, in a few words"}};
}

void hold_failed(WholeWindow& w) {
    lot_traced(w);
    w.notice.kind = app::Notice::Kind::failed;
    w.notice.words = "The book could not be written";
    w.notice.meaning = "No lot was put on hold.";
    w.notice.remedy = "Make room on the disk, then try once more.";
    w.notice.number = 1;
}

std::function<void(WholeWindow&)> page_of_trace(int page) {
    return [page](WholeWindow& w) {
        lot_traced(w);
        w.screens.trace.page = page;
    };
}

void dispatch_refused(WholeWindow& w) {
    page_of_trace(views::TraceView::dispatches_page)(w);
    auto& view = w.screens.trace;
    view.dispatch.open_for(0);
    view.dispatch.drafts[0].kg = "much";
    view.dispatch.refuse(0,
                         {{"Customer", "is empty", "Enter the customer's code"},
                          {"Weight", "\"much\" was read; a number is expected", "Type digits"},
                          {"Reason", "is empty: 900 kg are more than the run gives", "Say why it stands"}});
    view.rework.open_for(0);
    view.rework.refuse(0,
                       {{"Batch", "run R-1 has no batch 9 that stands", "Look at the batches of the run"}});
}

void silo_refused(WholeWindow& w) {
    page_of_trace(views::TraceView::silos_page)(w);
    auto& view = w.screens.trace;
    const PlaceId silo{4};
    view.silos.open_for(silo, {"2500", "30000"});
    view.silos.refuse(silo, {{"Mixing zone", "\"some\" was read", "Enter kg, \"none\" or \"all\""}});
    view.care.open_for(silo);
    view.care.refuse(silo,
                     {{"Reason", "is empty, and Silo 1 holds flour by the book", "Say why it is not there"}});
    view.draw_asked.refusals = {{"Draw", "\"x\" was read; a number is expected", "Type digits"}};
}

void stock_refused(WholeWindow& w) {
    page_of_trace(views::TraceView::stock_page)(w);
    w.screens.trace.stock_at = "soon";
    w.screens.trace.stock_asked.refusals = {{"At", "\"soon\" was read", "Enter a day as year-month-day"}};
}

void taking_dispatch_back(WholeWindow& w) {
    page_of_trace(views::TraceView::dispatches_page)(w);
    auto& question = w.screens.trace.taking_back.emplace();
    question.what = DispatchId{1};
    question.words = "2026-11-25: 100 pieces, 80.0 kg of Pan bread to K-17, run R-1125-1, van 2";
    question.asked.refusals = {{"Reason", "is empty", "Say why, in a few words"}};
}

} // namespace

std::vector<ScreenState> trace_screen_states() {
    return {{"trace, empty", Screen::trace, nothing_traced},
            {"trace, filled", Screen::trace, lot_traced},
            {"trace, refused", Screen::trace, fields_refused},
            {"trace, holding", Screen::trace, asked_to_hold},
            {"trace, failed", Screen::trace, hold_failed},
            {"trace, dispatches", Screen::trace, page_of_trace(views::TraceView::dispatches_page)},
            {"trace, dispatch refused", Screen::trace, dispatch_refused},
            {"trace, taking a dispatch back", Screen::trace, taking_dispatch_back},
            {"trace, silos", Screen::trace, page_of_trace(views::TraceView::silos_page)},
            {"trace, silo refused", Screen::trace, silo_refused},
            {"trace, stock", Screen::trace, page_of_trace(views::TraceView::stock_page)},
            {"trace, stock refused", Screen::trace, stock_refused}};
}

} // namespace mellowbin::test
