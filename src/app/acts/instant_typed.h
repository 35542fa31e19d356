#pragma once

#include "app/book/clock.h"
#include "core/result.h"

#include <string>
#include <string_view>

namespace mellowbin::app {

/// An instant that has been, as typed by the plant's clock: "2026-11-20 08:00"; a day alone is its end.
Result<Instant> read_instant(const Clock& clock, std::string_view field, const std::string& text);

} // namespace mellowbin::app
