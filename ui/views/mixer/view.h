#pragma once

#include "app/acts/notice.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "ui/views/levers/page.h"
#include "ui/views/mixer/given.h"
#include "ui/views/mixer/keeping_page.h"
#include "ui/views/mixer/log.h"
#include "ui/views/mixer/result.h"
#include "ui/views/mixer/scan.h"
#include "ui/views/mixer/solution.h"
#include "ui/views/mixer/verdict.h"
#include "ui/widgets/ui.h"

#include <optional>
#include <string>

/// One batch fills the screen: for a person 1 m away with floury hands.
namespace mellowbin::views {

struct MixerView {
    enum Page { batch_page, why_page, logged_page, levers_page, keeping_page };

    int page = batch_page;
    bool is_bowl = false; ///< the batch alone fills the window
    BagScan scan;
    GivenForm given;
    ResultForm result;
    SolutionForm solution;
    BatchLog log;
    std::optional<ClearBagsQuestion> clearing; ///< open over the screen
    LeversPage levers;
    KeepingPage keeping;

    ShownBatch shown;               ///< in the frame before
    bool had_form = false;          ///< a form stood over the card in the frame before
    std::optional<RunId> levers_of; ///< the run whose levers were asked for
};

void draw(MixerView& view, const app::MixerModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);
/// A scanner sent it, wherever the cursor stands: a bag is held against the card, which comes to the front.
void take_scan(MixerView& view, const app::MixerModel& model, const std::string& bytes,
               const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
