#pragma once

#include "app/acts/intent.h"
#include "app/models/mixer.h"
#include "ui/views/common/keep.h"
#include "ui/views/mixer/view.h"

namespace mellowbin::views {

/// "12-3": run and batch.
std::string key_words(ShownBatch key);
bool read_key(std::string_view words, ShownBatch& key);

/// Batches half logged, what came of them, and what is asked at the bowl.
void keep_begun(KeptWriter& k, const MixerView& view, const app::MixerModel& model);
/// `out` opens the run that it is about.
void take_up(KeptReader& k, MixerView& view, app::Intents& out);

} // namespace mellowbin::views
