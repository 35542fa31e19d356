#pragma once

#include "app/intents.h"
#include "app/read_models.h"
#include "ui/widgets/ui.h"

#include <cstdint>
#include <optional>

/// One batch fills the screen: for a person 1 m away with floury hands.
namespace mellowbin::views {

struct MixerView {
    /// The batch that was confirmed, until the card moves on: a second press meanwhile confirms nothing.
    struct Confirmed {
        RunId run;
        int batch;
        std::uint64_t notice; ///< the last notice's number when it was pressed
    };
    std::optional<Confirmed> confirmed;
};

void draw(MixerView& view, const app::MixerModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
