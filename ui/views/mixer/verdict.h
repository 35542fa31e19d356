#pragma once

#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/form.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// What is asked before quality lets a wrong bag be.
struct ClearBagsQuestion {
    RunId run;
    std::string by, reason; ///< as typed
    Asked asked;
};

/// One word and one sentence across the screen: mix, answer first, do not mix; what else there is to say
/// stands on the page Why.
void draw_strip(const app::CardModel& card);
/// Where a person must answer first, the field for it, what is typed goes to `answer`; where quality may
/// clear a wrong bag, the button for it.
void draw_answer(const app::CardModel& card, const Refusals& refusals, std::string& answer,
                 std::optional<ClearBagsQuestion>& clearing);
/// All that stands against the batch, with what lifts it, who may and whose rule it is.
void draw_reasons(const app::CardVerdict& verdict);
/// The question over the screen, where one is asked.
void draw(std::optional<ClearBagsQuestion>& question, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
