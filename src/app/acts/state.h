#pragma once

#include "app/acts/notice.h"
#include "app/acts/scan_memory.h"
#include "app/book/station.h"
#include "app/models/intake.h"
#include "app/models/looked_at.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/plant.h"
#include "app/models/readiness.h"
#include "app/models/setting_up.h"
#include "app/models/settings.h"
#include "app/models/trace_page.h"
#include "db/change.h"

#include <cstdint>
#include <optional>
#include <string>

namespace mellowbin::app {

/// All that an act works on: the book at this station, what is looked at, and what the screens show of it.
struct State : Station, LookedAt {
    Notice notice;
    Overview overview;
    IntakeModel intake;
    LotsModel lots;
    ReadinessModel readiness;
    PlanModel plan;
    MixerModel mixer;
    PlantModel plant;
    SettingsModel settings;
    SettingUpModel setting_up;
    TracePage trace;

    /// What the retests would teach now; none: not worked out since they changed.
    std::optional<aging::Learned> offered;
    std::uint64_t retests_logged = 0;
    std::uint64_t batches_logged = 0; ///< what was accepted on the Mixer screen
    std::uint64_t went_logged = 0;    ///< the same of dispatches, rework and silos, on Trace
    std::uint64_t bakes_logged = 0;
    std::uint64_t limits_changed = 0;
    std::uint64_t precision_changed = 0;
    std::uint64_t complaints_changed = 0;
    std::uint64_t mill_words_changed = 0;
    PlantKept plant_kept;
    LogRead log_read; ///< the last logger's file
    ScanMemory scanned;
    ScannerHeard scanner; ///< what its test and its port say
};

} // namespace mellowbin::app
