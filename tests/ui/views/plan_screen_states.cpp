#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

std::function<void(WholeWindow&)> plan_page(int page) {
    return [page](WholeWindow& w) {
        w.plan = a_full_week();
        w.screens.plan.page = page;
    };
}

void plan_with_a_run(WholeWindow& w) {
    w.plan = a_full_week();
    w.screens.plan.choose(12);
}

void adding_a_run(WholeWindow& w) {
    plan_with_a_run(w);
    w.screens.plan.form.is_open = true;
}

void plan_compared(WholeWindow& w) {
    w.plan = a_compared_week();
    w.screens.plan.page = views::PlanView::comparison_page;
    w.screens.plan.moved.selected = 12;
}

void plan_as_table(WholeWindow& w) {
    w.plan = a_full_week();
    w.screens.plan.page = views::PlanView::table_page;
}

void supposing(WholeWindow& w, int kind, Refusals refusals) {
    w.plan = a_supposed_week();
    auto& view = w.screens.plan;
    view.is_what_if = true;
    view.what_if.kind = view.what_if.asked_kind = kind;
    view.what_if.kg = "a lot";
    view.what_if.asked.refusals = std::move(refusals);
}

void plan_what_if(WholeWindow& w) {
    supposing(w, 1, {{"Weight", "\"a lot\" was read; a number is expected", "Type digits"}});
}

void plan_what_if_moves(WholeWindow& w) {
    supposing(w, 0, {});
    w.screens.plan.choose(12);
}

void plan_lot_in_hand(WholeWindow& w) {
    w.plan = a_full_week();
    w.screens.plan.choose(12);
    w.screens.plan.board.pick_up({12, 5});
}

void flour_refused(WholeWindow& w) {
    plan_page(views::PlanView::flour_page)(w);
    auto& page = w.screens.plan.flour;
    page.expect.is_open = page.reserve.is_open = true;
    page.expect.kg = "ten";
    page.expect.asked.refusals = {{"Weight", "\"ten\" was read; a number is expected", "Type digits"},
                                  {"Arrives", "is empty; a day is expected", "Type it"}};
    page.reserve.lot = "B26-044";
    page.reserve.asked.refusals = {{"Reason", "is empty", "Say why, in a few words"}};
}

std::function<void(WholeWindow&)> plan_asks(views::PlanQuestion::Deed deed) {
    return [deed](WholeWindow& w) {
        w.plan = a_full_week();
        auto question = views::PlanQuestion::change(w.plan.runs[1], w.plan);
        question.deed = deed;
        if (deed != views::PlanQuestion::Deed::change_run && deed != views::PlanQuestion::Deed::drop_run) {
            question.run = {};
            question.words = w.plan.expected[0].words;
        }
        question.asked.refusals = {{"Day", "2026-11-20 was read, which is before today", "Plan for later"},
                                   {"Lot", "is empty; the number of a lot is expected", "Type or scan it"},
                                   {"Reason", "is empty", "Say why, in a few words"}};
        w.screens.plan.question = question;
    };
}

void plan_withheld(WholeWindow& w) {
    w.plan = a_full_week();
    w.plan.withheld = {
        "Calcium propionate is withheld: Canada, bread: 1646 mg/kg as acid, of 2000 (List 11): "
        "not confirmed, read the source first (1 run: R-012)"};
    w.plan.runs[1].keeping_withheld = true;
    w.plan.runs[1].keeping_words = "Calcium propionate is withheld: Canada, bread: not confirmed";
    w.screens.plan.choose(12);
}

} // namespace

std::vector<ScreenState> plan_screen_states() {
    std::vector<ScreenState> all;
    const auto add = [&](const char* name, Screen screen, std::function<void(WholeWindow&)> begin) {
        all.push_back({name, screen, std::move(begin)});
    };
    add("plan, empty", Screen::plan, empty_book);
    add("plan, filled", Screen::plan, nothing);
    add("plan, proposed", Screen::plan, [](WholeWindow& w) { w.plan = a_proposed_week(); });
    add("plan, busy", Screen::plan, busy);
    add("plan, full", Screen::plan, plan_page(views::PlanView::board_page));
    add("plan, as table", Screen::plan, plan_as_table);
    add("plan, a run chosen", Screen::plan, plan_with_a_run);
    add("plan, withheld by law", Screen::plan, plan_withheld);
    add("plan, adding a run", Screen::plan, adding_a_run);
    add("plan, a lot in hand", Screen::plan, plan_lot_in_hand);
    add("plan, compared", Screen::plan, plan_compared);
    add("plan, nothing to compare", Screen::plan, plan_page(views::PlanView::comparison_page));
    add("plan, what if", Screen::plan, plan_what_if);
    add("plan, what if a run moved", Screen::plan, plan_what_if_moves);
    add("plan, flour to come", Screen::plan, plan_page(views::PlanView::flour_page));
    add("plan, flour refused", Screen::plan, flour_refused);
    add("plan, changing a run refused", Screen::plan, plan_asks(views::PlanQuestion::Deed::change_run));
    add("plan, dropping a run", Screen::plan, plan_asks(views::PlanQuestion::Deed::drop_run));
    add("plan, it came refused", Screen::plan, plan_asks(views::PlanQuestion::Deed::it_came));
    add("plan, called off refused", Screen::plan, plan_asks(views::PlanQuestion::Deed::called_off));
    add("plan, ending a reservation", Screen::plan, plan_asks(views::PlanQuestion::Deed::end_reservation));
    return all;
}

} // namespace mellowbin::test
