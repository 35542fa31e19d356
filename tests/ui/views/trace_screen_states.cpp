#include "ui/models/trace.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

void empty(WholeWindow& w) { empty_book(w); }

void filled(WholeWindow& w) {
    w.trace = a_traced_lot();
    w.screens.trace.of = "W26-118";
}

void refused(WholeWindow& w) {
    auto& view = w.screens.trace;
    view.asks = 1;
    view.of = "Rye";
    view.day = "soon";
    view.looked_for.refusals = {
        {"Product", "\"Rye\" is not known", "Choose one of: Pan bread"},
        {"Day", "\"soon\" was read; a date such as 2026-11-25 is expected", "Enter year-month-day"}};
}

void holding(WholeWindow& w) {
    filled(w);
    w.screens.trace.holding.emplace();
    w.screens.trace.holding->asked.refusals = {{"Reason", "is empty", "Say why, in a few words"}};
}

void failed(WholeWindow& w) {
    filled(w);
    w.notice.kind = app::Notice::Kind::failed;
    w.notice.words = "The book could not be written";
    w.notice.meaning = "No lot was put on hold.";
    w.notice.remedy = "Make room on the disk, then try once more.";
    w.notice.number = 1;
}

} // namespace

std::vector<ScreenState> trace_screen_states() {
    return {{"trace, empty", Screen::trace, empty},
            {"trace, filled", Screen::trace, filled},
            {"trace, refused", Screen::trace, refused},
            {"trace, holding", Screen::trace, holding},
            {"trace, failed", Screen::trace, failed}};
}

} // namespace mellowbin::test
