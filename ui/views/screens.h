#pragma once

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "ui/views/intake/view.h"
#include "ui/views/lots/view.h"
#include "ui/views/mixer/view.h"
#include "ui/views/plan/view.h"
#include "ui/views/readiness/view.h"
#include "ui/views/settings/view.h"
#include "ui/views/workbench.h"

namespace mellowbin::views {

/// Everything the screens show, as the application made it last.
struct Models {
    const app::Notice& notice;
    const app::Overview& overview;
    const app::IntakeModel& intake;
    const app::LotsModel& lots;
    const app::ReadinessModel& readiness;
    const app::PlanModel& plan;
    const app::MixerModel& mixer;
    const app::SettingsModel& settings;
};

/// All screens, with what a person has typed, chosen and opened on each.
struct Screens {
    WorkbenchView workbench;
    IntakeView intake;
    LotsView lots;
    ReadinessView readiness;
    PlanView plan;
    MixerView mixer;
    SettingsView settings;

    std::uint64_t notice_seen = 0; ///< the last one that may have led to another screen

    void show(Screen screen);
    [[nodiscard]] Screen current() const { return workbench.current; }
};

/// Draws the window: the one function that the real window and the tests call. What the person does is
/// appended to `out`, to be carried out after the frame.
void draw(Screens& screens, const Models& models, app::Intents& out);

} // namespace mellowbin::views
