#pragma once

#include "app/acts/notice.h"
#include "app/models/keeping.h"
#include "app/models/mixer.h"
#include "ui/views/common/awaited.h"

#include <cstdint>
#include <map>
#include <optional>

namespace mellowbin::views {

/// What bread did while it was kept, as typed. One draft for each product, so that a look at another run's
/// product loses nothing.
struct KeepingForm {
    std::map<ProductId, KeepingDraft> drafts; ///< until they are logged
    std::optional<ProductId> sent;            ///< whose draft is being answered
    ProductId refused;                        ///< whose draft the refusals are about
    Refusals refusals;
    Awaited answer;
    std::optional<std::uint64_t> logged_seen; ///< the model's count, seen last
};

/// The fields of a record of mould or of firmness, with refusals beside those they name.
void draw(KeepingForm& form, const app::KeepingModel& keeping, const app::MixerModel& model,
          const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
