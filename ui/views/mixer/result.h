#pragma once

#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/form.h"

namespace mellowbin::views {

/// What came of a batch, as typed, begun with what was said of it before.
using ResultForm = Form<BatchId, ResultDraft>;

/// The batch whose form is open, where it is one of this card's run and holds; null: none.
const app::BatchRow* opened(const ResultForm& form, const app::CardModel& card);
/// The newest batch that nobody has said anything of yet, null: none.
const app::BatchRow* newest_unsaid(const app::CardModel& card);

/// The form over the whole page. Escape closes it.
void draw(ResultForm& form, const app::BatchRow& batch, const app::CardModel& card, const app::Notice& notice,
          app::Intents& out);

} // namespace mellowbin::views
