#pragma once

#include "app/models/story.h"
#include "ui/views/common/take_back.h"

#include <optional>
#include <span>

namespace mellowbin::views {

/// A lot's results by certificate and retest: what counts as evidence, what was set aside and why, what asks
/// for a check; each retest with a button that asks to withdraw it.
void draw_results(std::span<const app::TestRow> tests, std::optional<TakeBack>& question);

} // namespace mellowbin::views
