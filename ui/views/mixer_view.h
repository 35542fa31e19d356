#pragma once

#include "app/intents.h"
#include "app/read_models.h"
#include "ui/views/keeping_page.h"
#include "ui/views/levers_page.h"
#include "ui/views/mixer_given.h"
#include "ui/views/mixer_log.h"
#include "ui/views/mixer_result.h"
#include "ui/views/mixer_scan.h"
#include "ui/views/mixer_solution.h"
#include "ui/widgets/ui.h"

#include <optional>

/// One batch fills the screen: for a person 1 m away with floury hands.
namespace mellowbin::views {

struct MixerView {
    enum Page { batch_page, logged_page, levers_page, keeping_page };

    int page = batch_page;
    BagScan scan;
    GivenForm given;
    ResultForm result;
    SolutionForm solution;
    BatchLog log;
    LeversPage levers;
    KeepingPage keeping;

    ShownBatch shown;               ///< in the frame before
    bool had_form = false;          ///< a form stood over the card in the frame before
    std::optional<RunId> levers_of; ///< the run whose levers were asked for
};

void draw(MixerView& view, const app::MixerModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
