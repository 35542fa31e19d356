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

/// One word: mix, answer first or do not mix.
void draw_ruling(const app::CardVerdict& verdict);
/// Where it may not be mixed as it is, above the card: what stands against it, what lifts it and who may.
/// Where a person must answer first, the field for it; what is typed goes to `answer`.
void draw_verdict(const app::CardModel& card, const Refusals& refusals, std::string& answer,
                  std::optional<ClearBagsQuestion>& clearing);
/// The question over the screen, where one is asked.
void draw(std::optional<ClearBagsQuestion>& question, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
