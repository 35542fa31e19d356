#pragma once

#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/form.h"
#include "ui/views/mixer/result.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// What is asked before a batch is countered. Stays open, with the reason as typed, until it is done or given
/// up.
struct CounterQuestion {
    BatchId batch;
    std::string words;  ///< the batch, as the screen said it
    std::string reason; ///< as typed
    Asked asked;
};

/// The batches of the run as they were logged, newest first.
struct BatchLog {
    std::optional<CounterQuestion> question;
};

/// Each batch with what went in and what came of it; a countered one says so and can no longer be changed.
void draw(BatchLog& log, ResultForm& result, const app::CardModel& card);
/// The question over the screen, where one is asked.
void draw(std::optional<CounterQuestion>& question, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
