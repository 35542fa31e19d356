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

} // namespace

std::vector<ScreenState> trace_screen_states() {
    return {{"trace, empty", Screen::trace, nothing_traced},
            {"trace, filled", Screen::trace, lot_traced},
            {"trace, refused", Screen::trace, fields_refused},
            {"trace, holding", Screen::trace, asked_to_hold},
            {"trace, failed", Screen::trace, hold_failed}};
}

} // namespace mellowbin::test
