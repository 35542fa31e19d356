#pragma once

#include "app/acts/notice.h"
#include "app/models/mixer.h"
#include "ui/views/common/take_back.h"
#include "ui/views/mixer/keeping_form.h"

#include <optional>

namespace mellowbin::views {

/// How a product's bread keeps: its preservative against the markets' limits, what was seen of the bread
/// here, and what to do about it.
struct KeepingPage {
    KeepingForm form;
    bool firmness_as_table = false;
    std::optional<TakeBack> taking_back; ///< a record; open over the screen
};

void draw(KeepingPage& page, const app::MixerModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
