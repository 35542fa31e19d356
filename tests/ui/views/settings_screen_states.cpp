#include "app/models/mixer.h"
#include "ui/models/doughs.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

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

} // namespace

std::vector<ScreenState> settings_screen_states() {
    std::vector<ScreenState> all;
    const auto add = [&](const char* name, Screen screen, std::function<void(WholeWindow&)> begin) {
        all.push_back({name, screen, std::move(begin)});
    };
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
    return all;
}

} // namespace mellowbin::test
