#pragma once

#include "app/app.h"
#include "app/mill_certificate.h"
#include "app/models/intake.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "app/small_plant.h"
#include "support/screen.h"
#include "ui/views/kept.h"
#include "ui/views/screens.h"

#include <memory>
#include <string>
#include <string_view>

namespace mellowbin::tests {

/// The window over the application at a small plant's book, on the Intake screen.
struct DockWindow {
    SmallPlant plant;
    std::unique_ptr<views::Screens> screens = std::make_unique<views::Screens>();
    views::Screen first = views::Screen::intake;
    bool is_begun = false;
    testing::Screen screen{[this] { frame(); }};

    views::Models models() {
        auto& app = plant.app();
        return {app.notice(), app.overview(), app.intake(),   app.lots(),       app.readiness(), app.plan(),
                app.mixer(),  app.plant(),    app.settings(), app.setting_up(), app.trace()};
    }
    /// What the shell does in one.
    void frame() {
        if (!is_begun)
            screens->show(first);
        is_begun = true;
        plant.app().poll();
        app::Intents did;
        views::draw(*screens, models(), did);
        for (const auto& intent : did)
            plant.app().handle(intent);
    }
    /// The window is killed and opened anew: only what was kept is there.
    void kill_and_take_up() {
        const auto kept = views::kept_of(*screens, models());
        plant.open_again();
        screens = std::make_unique<views::Screens>();
        app::Intents opens;
        views::take_up(*screens, models(), kept, opens);
        for (const auto& intent : opens)
            plant.app().handle(intent);
        plant.app().finish_work();
        screen.settle();
    }
    void put_away() {
        if (screen.offers("Put away"))
            screen.click("Put away");
    }
    /// The delivery's head: mill, flour and place of the lot at hand.
    void choose_origin() {
        auto& draft = screens->intake.delivery.at_hand().draft;
        draft.mill = "Mill";
        draft.flour = "Strong white";
        draft.place = "Bay 1";
    }
    void paste(const std::string& text) {
        screen.click("Paste a certificate");
        screen.type("Text of the certificate", text);
        screen.click("Read it");
        plant.app().finish_work();
        screen.settle();
    }
    const views::DeliveryLine& at_hand() { return screens->intake.delivery.at_hand(); }
};

} // namespace mellowbin::tests
