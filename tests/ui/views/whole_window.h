#pragma once

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/setting_up.h"
#include "app/models/settings.h"
#include "app/models/trace_page.h"
#include "support/screen.h"
#include "ui/models/lots.h"
#include "ui/models/plan.h"
#include "ui/models/plant.h"
#include "ui/views/screens.h"

#include <string>
#include <variant>

namespace mellowbin::test {

/// What is shown, as a test sets it.
struct ShownModels {
    app::Notice notice;
    app::Overview overview = a_busy_morning();
    app::IntakeModel intake = an_empty_dock();
    app::LotsModel lots = seven_lots();
    app::ReadinessModel readiness = six_lots();
    app::PlanModel plan = a_week();
    app::MixerModel mixer = a_batch();
    app::PlantModel plant = a_plant();
    app::SettingsModel settings = some_settings();
    app::SettingUpModel setting_up;
    app::TracePage trace;

    [[nodiscard]] views::Models models() const {
        return {notice, overview, intake, lots, readiness, plan, mixer, plant, settings, setting_up, trace};
    }
};

/// The whole window over read-models that a test sets; what the person did is in `did`.
struct WholeWindow : ShownModels {
    views::Screens screens;
    app::Intents did;
    bool is_begun = false;
    testing::Screen screen;

    explicit WholeWindow(views::Screen first, ui::FrameSetup setup = {});
    WholeWindow(const WholeWindow&) = delete; // it is drawn where it stands
    WholeWindow& operator=(const WholeWindow&) = delete;
    ~WholeWindow();

    /// The application's answer, and the frame after it.
    void tell(app::Notice answer) {
        notice = std::move(answer);
        screen.settle();
    }
    /// The last thing of this kind that the person did; fails the test if it was something else.
    template <class Act> const Act& last() const {
        if (did.empty())
            throw std::runtime_error("nothing was done. On the screen:\n" + screen.words());
        if (const auto* act = did.back().as<Act>())
            return *act;
        throw std::runtime_error("something else was done. On the screen:\n" + screen.words());
    }
};

} // namespace mellowbin::test
