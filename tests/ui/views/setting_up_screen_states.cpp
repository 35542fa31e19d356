#include "app/models/intake.h"
#include "app/models/setting_up.h"
#include "ui/models/lots.h"
#include "ui/views/screen_states.h"

namespace mellowbin::test {
namespace {

using views::Screen;

/// The assistant at a step of which nothing is kept yet.
std::function<void(WholeWindow&)> setting_up(app::SetUpStep next) {
    return [next](WholeWindow& w) {
        empty_book(w);
        auto& model = w.setting_up;
        for (std::size_t i = 0; i < static_cast<std::size_t>(next); ++i)
            model.steps[i] = {true, "W26-131"};
        model.next = next;
        model.is_offered = true;
        model.flours = {"Strong white"};
        model.markets = {"Canada", "EU", "US", "US-CA", "UK"};
        model.bases = app::basis_choices();
        model.lot = app::SetUpLot{LotId{6},
                                  "W26-131",
                                  LotState::held,
                                  "two bags were torn",
                                  {{app::Finding::Weight::against, "Bags dry and not torn: no, 2 bags"},
                                   {app::Finding::Weight::mind, "Seal whole: not looked at"}}};
        w.screens.assistant.open();
    };
}

void setting_up_refused(WholeWindow& w) {
    setting_up(app::SetUpStep::flour)(w);
    w.screen.settle();
    w.screen.type("Protein, lowest", "fourteen");
    w.screen.click("Keep the flour");
    w.notice = refused(
        1, {{"Name", "is empty", "Enter it"},
            {"Kind of flour", "is empty", "Choose one"},
            {"Specification 1, lowest", "\"fourteen\" was read; a number is expected", "Type digits"}});
}

void offered(WholeWindow& w) {
    setting_up(app::SetUpStep::lot)(w);
    w.screens.assistant.is_open = false;
}

} // namespace

std::vector<ScreenState> setting_up_screen_states() {
    return {
        {"intake, something to set up", Screen::intake, offered},
        {"plan, something to set up", Screen::plan, offered},
        {"assistant, plant", Screen::intake, setting_up(app::SetUpStep::plant)},
        {"assistant, flour refused", Screen::intake, setting_up_refused},
        {"assistant, place", Screen::intake, setting_up(app::SetUpStep::place)},
        {"assistant, line", Screen::intake, setting_up(app::SetUpStep::line)},
        {"assistant, product", Screen::intake, setting_up(app::SetUpStep::product)},
        {"assistant, lot", Screen::intake, setting_up(app::SetUpStep::lot)},
        {"assistant, release", Screen::intake, setting_up(app::SetUpStep::release)},
        {"assistant, run", Screen::intake, setting_up(app::SetUpStep::run)},
        {"assistant, card", Screen::intake, setting_up(app::SetUpStep::card)},
    };
}

} // namespace mellowbin::test
