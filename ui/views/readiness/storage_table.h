#pragma once

#include "app/models/story.h"

#include <span>

namespace mellowbin::views {

/// The air where a lot lay and will lie, day by day, with the share of each day that a logger measured.
void storage_table(std::span<const app::StorageDay> days);

} // namespace mellowbin::views
