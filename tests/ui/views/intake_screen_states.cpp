#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

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

void no_label(WholeWindow& w) {
    w.screens.intake.delivery.at_hand().draft.code = "M\u00dcHLE 7, third milling of the week";
    w.intake.plain = {"PO 4711 West", 1};
}

} // namespace

std::vector<ScreenState> intake_screen_states() {
    std::vector<ScreenState> all;
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
    return all;
}

} // namespace mellowbin::test
