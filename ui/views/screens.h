#pragma once

#include "app/acts/notice.h"
#include "app/acts/scanner.h"
#include "app/models/overview.h"
#include "ui/views/intake/view.h"
#include "ui/views/kept_view.h"
#include "ui/views/lots/view.h"
#include "ui/views/mixer/view.h"
#include "ui/views/plan/view.h"
#include "ui/views/plant/view.h"
#include "ui/views/readiness/view.h"
#include "ui/views/settings/view.h"
#include "ui/views/trace/view.h"
#include "ui/views/welcome/assistant.h"
#include "ui/views/workbench.h"

#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace mellowbin::views {

/// By place in the table of screens.cpp, which says all that is to be said of one: its name, its key, what
/// waits on it and how it is drawn.
enum class Screen { intake, lots, readiness, plan, mixer, trace, plant, settings };
/// "Intake": on the rail, and after --screen.
std::string_view name_of(Screen screen);
/// Reads a screen's name in any case; nothing for another word.
std::optional<Screen> screen_named(std::string_view name);
/// "Intake, Lots, … and Settings".
std::string screen_names();

/// Everything the screens show, as the application made it last.
struct Models {
    const app::Notice& notice;
    const app::Overview& overview;
    const app::IntakeModel& intake;
    const app::LotsModel& lots;
    const app::ReadinessModel& readiness;
    const app::PlanModel& plan;
    const app::MixerModel& mixer;
    const app::PlantModel& plant;
    const app::SettingsModel& settings;
    const app::SettingUpModel& setting_up;
    const app::TracePage& trace;
};

/// All screens, with what a person has typed, chosen and opened on each.
class Screens {
public:
    WorkbenchView workbench;
    KeptView kept;
    IntakeView intake;
    LotsView lots;
    ReadinessView readiness;
    PlanView plan;
    MixerView mixer;
    TraceView trace;
    PlantView plant;
    SettingsView settings;
    AssistantView assistant; ///< open, it stands in place of the screen

    std::uint64_t notice_seen = 0; ///< the last one that may have led to another screen

    void show(Screen screen);
    /// A file was dropped on the window: certificates for Intake.
    void drop_file(const std::string& path);
    /// A scanner sent it: the screen that is shown when it is drawn next takes it, wherever the cursor
    /// stands.
    void scanned(app::Scanned scan) { scans_.push_back(std::move(scan)); }
    /// More than one came: each is answered before the next.
    [[nodiscard]] bool has_scans() const { return !scans_.empty(); }
    std::optional<app::Scanned> take_scan();
    [[nodiscard]] Screen current() const { return current_; }

private:
    Screen current_ = Screen::intake;
    std::deque<app::Scanned> scans_;
};

/// Draws the window: the one function that the real window and the tests call. What the person does is
/// appended to `out`, to be carried out after the frame.
void draw(Screens& screens, const Models& models, app::Intents& out);

} // namespace mellowbin::views
