#include "app/models/keeping.h"
#include "app/models/levers.h"
#include "app/models/mixer.h"
#include "ui/models/doughs.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

std::function<void(WholeWindow&)> levers(std::optional<app::LeversModel> weighed) {
    return [weighed](WholeWindow& w) {
        w.screens.mixer.page = views::MixerView::levers_page;
        w.mixer.levers = weighed;
    };
}

void levers_refused(WholeWindow& w) {
    auto refused = some_levers();
    refused.refusals = {{"Lots", "none is planned for the run", "Plan the week and adopt the plan"},
                        {"Strength", "Pan bread has no demand", "Give it one on Settings"}};
    levers(refused)(w);
}

std::function<void(WholeWindow&)> keeping(std::optional<app::KeepingModel> known) {
    return [known](WholeWindow& w) {
        w.screens.mixer.page = views::MixerView::keeping_page;
        w.mixer.keeping = known;
    };
}

void keeping_refused(WholeWindow& w) {
    keeping(pan_bread_keeping())(w);
    auto& form = w.screens.mixer.keeping.form;
    form.refuse(ProductId{1}, {{"Baked on", "2026-12-24 was read, which is after today", "Log it then"},
                               {"Days", "-5 was read; from 0 to 60 is expected", "Count the days"},
                               {"Finding", "is empty", "Say whether mould was seen"},
                               {"pH", "58 was read; from 3 to 8 is expected", "Check the comma"}});
    w.screen.settle();
    w.screen.click("Log the finding");
}

void withdrawing_keeping(WholeWindow& w) {
    keeping(pan_bread_keeping())(w);
    auto& question = w.screens.mixer.keeping.taking_back.emplace();
    question.what = KeepingId{3};
    question.words = "2026-11-21: day 3: firmness 412 g";
}

std::function<void(WholeWindow&)> mixing(app::MixerModel (*batch)(),
                                         int page = views::MixerView::batch_page) {
    return [batch, page](WholeWindow& w) {
        w.mixer = batch();
        w.screens.mixer.page = page;
    };
}

void wrong_bag(WholeWindow& w) {
    w.mixer = a_poured_batch();
    w.screens.mixer.shown = views::shown_batch(*w.mixer.card);
    w.screens.mixer.scan.text = "B26-099";
    w.screens.mixer.scan.asked.refusals = {
        {"Bag", "STOP: lot B26-099 is not on this card; B26-031, B26-044 is expected", "Put the bag back"}};
    w.mixer.card->has_wrong_bag = true;
    w.mixer.card->verdict = {
        app::CardVerdict::Ruling::do_not_mix,
        "Do not mix",
        {{"wrong_bag", true,
          "Lot B26-099 was scanned (04:12 by Ines), which is not on this card; B26-031, B26-044 is expected",
          "Scan a bag of each lot of this card, or have quality staff clear it by name and reason",
          "a rule"}}};
}

void given_refused(WholeWindow& w) {
    w.mixer = a_poured_batch();
    auto& form = w.screens.mixer.given;
    const auto shown = views::shown_batch(*w.mixer.card);
    form.open_for(shown);
    form.drafts[shown].water = "2060";
    form.drafts[shown].oxidant = "x";
    form.refuse(shown,
                {{"Lot B26-044", "1146 lb was read; the card says 114.6 lb", "Check the decimal point"},
                 {"Water", "2060 lb was read; the card says 206.0 lb", "Check the decimal point"},
                 {"Oxidant", "\"x\" was read; a number is expected", "Type digits"},
                 {"Checked by", "is the person who confirms; a second one is expected", ""},
                 {"Batch", "batch 3 was on the screen, batch 4 is next", "Look at the card again"}});
}

void check_refused(WholeWindow& w) {
    given_refused(w);
    w.screens.mixer.given.open.reset();
}

void result_refused(WholeWindow& w) {
    auto& form = w.screens.mixer.result;
    form.open_for(BatchId{23}, {.dough_temperature = "260",
                                .ph = "14",
                                .feel = "slack",
                                .mixing_minutes = "8",
                                .fermentation_minutes = {},
                                .note = "bowl was warm"});
    form.refuse(BatchId{23},
                {{"Dough temperature", "260 was read; from 0 to 45 °C is expected", "Check the comma"},
                 {"pH", "14 was read; from 3 to 8 is expected", "Check the comma"},
                 {"Result", "is empty", "Enter what is known of the dough"}});
}

void countering_batch(WholeWindow& w) {
    w.screens.mixer.page = views::MixerView::logged_page;
    auto& question = w.screens.mixer.log.question.emplace();
    question.batch = BatchId{23};
    question.words = "Batch 2: 98 kg B26-031, 52 kg B26-044, 93.5 kg water at 6.5 °C, 11.0 kg ice";
    question.asked.refusals = {{"Reason", "is empty", "Say why, in a few words"}};
}

void solution_refused(WholeWindow& w) {
    w.mixer = a_past_solution();
    auto& form = w.screens.mixer.solution;
    form.is_open = true;
    form.substance = "Ascorbic acid";
    form.strength = "7500";
    form.made.refusals = {{"Strength", "7500 g/L was read; from 0.1 to 300 is expected", "Check the comma"}};
}

} // namespace

std::vector<ScreenState> mixer_screen_states() {
    return {
        {"mixer, refused", Screen::mixer, [](WholeWindow& w) { w.mixer = a_refused_card(); }},
        {"mixer, poured", Screen::mixer, mixing(a_poured_batch)},
        {"mixer, solution past", Screen::mixer, mixing(a_past_solution)},
        {"mixer, solution refused", Screen::mixer, solution_refused},
        {"mixer, wrong bag", Screen::mixer, wrong_bag},
        {"mixer, check refused", Screen::mixer, check_refused},
        {"mixer, something else refused", Screen::mixer, given_refused},
        {"mixer, what came of it refused", Screen::mixer, result_refused},
        {"mixer, logged", Screen::mixer, mixing(a_batch, views::MixerView::logged_page)},
        {"mixer, countering refused", Screen::mixer, countering_batch},
        {"mixer, levers", Screen::mixer, levers(some_levers())},
        {"mixer, levers out of reach", Screen::mixer, levers(levers_out_of_reach())},
        {"mixer, levers not weighed", Screen::mixer, levers(std::nullopt)},
        {"mixer, levers refused", Screen::mixer, levers_refused},
        {"mixer, keeping", Screen::mixer, keeping(pan_bread_keeping())},
        {"mixer, keeping with nothing known", Screen::mixer, keeping(bare_keeping())},
        {"mixer, keeping refused", Screen::mixer, keeping_refused},
        {"mixer, withdrawing a record", Screen::mixer, withdrawing_keeping},
    };
}

} // namespace mellowbin::test
