#pragma once

#include "app/acts/notice.h"
#include "app/models/keeping.h"
#include "app/models/mixer.h"
#include "ui/views/common/form.h"

#include <cstdint>
#include <map>
#include <optional>

namespace mellowbin::views {

/// What bread did while it was kept, as typed. One draft for each product, so that a look at another run's
/// product loses nothing.
using KeepingForm = Form<ProductId, KeepingDraft>;

/// The fields of a record of mould or of firmness, with refusals beside those they name.
void draw(KeepingForm& form, const app::KeepingModel& keeping, const app::MixerModel& model,
          const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
