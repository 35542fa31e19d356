#include "ui/views/screen_states.h"

#include "app/models/lot_verdict.h"
#include "app/models/mixer.h"
#include "ui/models/doughs.h"
#include "ui/models/story.h"

namespace mellowbin::test {

void empty_book(WholeWindow& w) {
    w.overview = {};
    w.overview.today = plan_today();
    w.lots = {};
    w.readiness = {};
    w.readiness.today = w.readiness.as_of = plan_today();
    w.plan = {};
    w.plan.from = w.plan.today = plan_today();
    w.mixer = {};
    w.mixer.today = plan_today();
    w.settings.limits.clear();
    w.settings.journal.clear();
    w.settings.places.clear();
    w.settings.learning = {};
}

namespace {

using views::Screen;
using Deed = views::LotQuestion::Deed;

void nothing(WholeWindow&) {}

void failure(WholeWindow& w) { w.notice = failed(1); }

void busy(WholeWindow& w) {
    w.overview.running = "Planning: 120 steps, 0.4 s";
    w.plan.is_planning = true;
    w.plan.progress = "120 steps, 0.4 s, best 5 920, bound 4 050";
}

void file_read(WholeWindow& w) { w.intake = a_dock_with_a_file(); }

void refused_delivery(WholeWindow& w) {
    file_read(w);
    w.screen.settle();
    w.screen.click("Take in 2 lots");
    w.notice = refused(
        1, {{"Lot W26-140: Moisture", "140 was read; from 0 to 30 % is expected", "Check the figure"},
            {"Lot W26-140: Price per tonne", "\"x\" was read; a number is expected", "Type digits"},
            {"Lot W26-141: Mill", "\"Old\" is not known", "Choose one of: Harrow Mill, Kestrel Mill"}});
}

void all_figures(WholeWindow& w) { w.screen.click("Price, bags, temperature, more figures"); }

/// Three lots: one whole, one that the door holds, one with a figure to mend.
void three_lots(WholeWindow& w) {
    file_read(w);
    w.screen.settle();
    w.screen.click("Bags dry and not torn/No");
    auto& form = w.screens.intake;
    form.door.checks[1].findings.front() = {form.delivery.lines()[0].number, "2", "torn by the fork"};
    form.delivery.next();
    auto& line = form.delivery.at_hand();
    line.draft.code = "W26-142";
    line.draft.mass_kg = "2 500,5";
    line.draft.figure(Property::protein).value = "131";
    line.all_left = true;
}

/// Flour of the mill is to come, colleagues have begun, a lot came on two pallets, and its weight is not the
/// note's.
void expected_delivery(WholeWindow& w) {
    file_read(w);
    ExpectedDelivery expected{ExpectedId{2},     "E-2",        MillId{1},    FlourId{1},
                              Grams{12'000'000}, plan_today(), plan_today(), false};
    w.intake.expected = {expected};
    expected.id = ExpectedId{3};
    expected.code = "E-3";
    expected.arrives += Days{2};
    w.intake.expected.push_back(expected);
    w.intake.begun = {
        {BegunId{3}, 0, "Begun by Jonas, 04:12: 3 lots of Harrow Mill, 1 of them whole", ""},
        {BegunId{4}, 2, "Begun by Joris, 03:50: 1 lot of Weir Mill", "Ines has it since 04:20, at Office"}};
    w.screen.settle();
    auto& form = w.screens.intake;
    form.delivery.at_hand().draft.pallets = {{"106141411234567897", "500"}, {"376104250021234568", ""}};
    form.folds.shows_pallets = form.form.shows_more = form.form.all_left = form.shows_head = true;
    form.form.draft.on_note = "2100";
}

/// The same, answered by the one that was to come today.
void answered_delivery(WholeWindow& w) {
    expected_delivery(w);
    w.screens.intake.form.draft.expected = "E-2";
    w.screens.intake.form.by_order = "PO-17";
}

void choosing_a_file(WholeWindow& w) {
    w.screen.click("Read a file");
    w.intake.folder = {"/home/ines/certificates", {{"2026", true}, {"monday.csv", false}}, ""};
}

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

void logger_refused(WholeWindow& w) {
    auto& page = w.screens.settings.storage;
    w.screens.settings.page = 3;
    page.path = "/home/ines/bay2.csv";
    page.place = "Bay 2";
    page.asked.refusals = {{"Logger's file", "\"bay2.csv\" cannot be read", "Check the path"},
                           {"Line 12", "\"warm\" was read; a temperature is expected", "Mend the line"}};
}

void taking_log_back(WholeWindow& w) {
    w.screens.settings.page = 3;
    auto& question = w.screens.settings.storage.taking_back.emplace();
    question.what = ClimateLogId{3};
    question.words = "bay2_autumn.csv, read for Bay 2";
}

void nothing_learned(WholeWindow& w) {
    w.screens.settings.page = 4;
    w.settings.learning = {};
    w.settings.learning.standing = "The published figures hold.";
    w.settings.learning.blocked = "Retests of two lots at least are needed, each at two ages";
}

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

void doughs_refused(WholeWindow& w) {
    auto& page = w.screens.settings.doughs;
    w.screens.settings.page = 5;
    page.drafts[ProductId{1}] = {{{"Whole egg", "12", "120", ""}, {"", "3", "", ""}},
                                 w.settings.doughs.doughs.front().ingredients};
    page.usual = 0;
    page.refused = ProductId{1};
    page.asked.refusals = {{"Ingredient Whole egg, water", "120 was read; 0 to 100 % is expected", ""},
                           {"Ingredient 2", "has no name", "Enter what it is called"}};
}

void no_label(WholeWindow& w) {
    w.screens.intake.delivery.at_hand().draft.code = "M\u00dcHLE 7, third milling of the week";
    w.intake.plain = {"PO 4711 West", 1};
}

/// A German keyboard, a scanner of an American one: most that is ever said.
void scanner_on_another_keyboard(WholeWindow& w) {
    w.screens.settings.page = views::SettingsView::last_page;
    auto& heard = w.settings.scanner.heard;
    auto verdict = exchange::judge_test_scan(
        {"010952123454321310AaBbMmQqWwXxZzYy0678~21!\u00c4%/\u00e4)=(`,\u00df.-\u00d6\u00f6;\u00b4:_?",
         exchange::Arrival::Way::keys, exchange::Arrival::End::pause, 0.031},
        {}, 0.035);
    heard.lines = std::move(verdict.lines);
    heard.separator = std::move(verdict.separator);
}

void scanner_judged(WholeWindow& w) {
    w.screens.settings.page = views::SettingsView::last_page;
    auto& scanner = w.settings.scanner;
    scanner.port = {"/dev/serial/by-id/usb-scanner-if00", 9600};
    scanner.heard.port_words = "/dev/serial/by-id/usb-scanner-if00 was unplugged: plug the scanner in again";
    scanner.heard.port_is_well = false;
    auto verdict =
        exchange::judge_test_scan({"010952123454321310AaBbMmQqWwXxYyZz0678~21!\"%&'()*+,-./:;<=>?_",
                                   exchange::Arrival::Way::keys, exchange::Arrival::End::enter, 0.008},
                                  {}, 0.035);
    scanner.heard.lines = std::move(verdict.lines);
    scanner.heard.separator = std::move(verdict.separator);
}

std::function<void(WholeWindow&)> settings_page(int page) {
    return [page](WholeWindow& w) {
        w.screens.settings.page = page;
        w.screens.settings.limits.selected = 2;
        w.screens.settings.constants.selected = 1;
        w.screens.settings.typed["confidence"] = {"1,8", "0.80"};
        w.screens.settings.asked.refusals = {
            {"Confidence of a ready date", "1,8 was read; from 0.5 to 0.99 is expected", "Check the figure"}};
    };
}

void limit_refused(WholeWindow& w) {
    const auto& line = w.settings.limits.back();
    const auto record = views::record_of(line.id);
    w.screens.settings.limits.selected = record;
    auto& form = w.screens.settings.limit_form;
    form.open_for(record, line.draft);
    form.drafts[record].figure = "much";
    form.refuse(record, {{"Limit", "\"much\" was read; a number is expected", "Type digits"},
                         {"Source", "is empty", "Enter the statute and section that says so"}});
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

void all_done_with_undo(WholeWindow& w) {
    w.notice = done(1, "Lot W26-131 released");
    w.notice.undo = "Undo: hold lot W26-131 again";
}

} // namespace

std::vector<ScreenState> all_screen_states() {
    std::vector<ScreenState> all;
    // One by one: a list of all of them takes a compiler a minute.
    const auto add = [&](const char* name, Screen screen, std::function<void(WholeWindow&)> begin) {
        all.push_back({name, screen, std::move(begin)});
    };
    add("intake, empty", Screen::intake, nothing);
    add("intake, a file read", Screen::intake, file_read);
    add("intake, refused", Screen::intake, refused_delivery);
    add("intake, all figures", Screen::intake, all_figures);
    add("intake, three lots", Screen::intake, three_lots);
    add("intake, expected", Screen::intake, expected_delivery);
    add("intake, answered", Screen::intake, answered_delivery);
    add("intake, choosing a file", Screen::intake, choosing_a_file);
    add("intake, no label", Screen::intake, no_label);
    add("intake, failed", Screen::intake, failure);
    add("intake, busy", Screen::intake, busy);
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
    add("mixer, empty", Screen::mixer, empty_book);
    add("mixer, filled", Screen::mixer, nothing);
    add("settings, limits", Screen::settings, settings_page(0));
    add("settings, empty", Screen::settings, empty_book);
    add("settings, confirming", Screen::settings,
        [](WholeWindow& w) { w.screens.settings.limit_to_confirm = 2; });
    add("settings, correcting refused", Screen::settings, limit_refused);
    add("settings, published numbers", Screen::settings, settings_page(1));
    add("settings, choices refused", Screen::settings, settings_page(2));
    add("settings, storage", Screen::settings, settings_page(3));
    add("settings, logger refused", Screen::settings, logger_refused);
    add("settings, taking a log back", Screen::settings, taking_log_back);
    add("settings, learned", Screen::settings, settings_page(4));
    add("settings, nothing learned", Screen::settings, nothing_learned);
    add("settings, doughs", Screen::settings, settings_page(5));
    add("settings, doughs refused", Screen::settings, doughs_refused);
    add("settings, journal", Screen::settings, settings_page(6));
    add("settings, scanner", Screen::settings, settings_page(views::SettingsView::last_page));
    add("settings, scanner judged", Screen::settings, scanner_judged);
    add("settings, another keyboard", Screen::settings, scanner_on_another_keyboard);
    add("settings, failed", Screen::settings, failure);
    for (auto& state : mixer_screen_states())
        all.push_back(std::move(state));
    for (auto& state : plant_screen_states())
        all.push_back(std::move(state));
    for (auto& state : certificate_screen_states())
        all.push_back(std::move(state));
    for (auto& state : trace_screen_states())
        all.push_back(std::move(state));
    for (auto& state : mill_screen_states())
        all.push_back(std::move(state));
    for (auto& state : judgement_screen_states())
        all.push_back(std::move(state));
    for (auto& state : setting_up_screen_states())
        all.push_back(std::move(state));
    return all;
}

} // namespace mellowbin::test
