#pragma once

#include "aging/outlook.h"
#include "aging/storage_watch.h"

#include <span>
#include <string>
#include <vector>

namespace mellowbin::aging {

/// What to do with a lot on a day.
enum class Advice { wait, use, use_first, hold };

struct Advised {
    Advice advice{};
    std::vector<std::string> reasons; ///< at least one; the weightiest first
};
/// From where it stands on its way and what its storage did to it. Hold: past its best, or an alarm that
/// stops; a person may still release it with a reason.
Advised advise(const Outlook& outlook, std::span<const StorageAlarm> alarms);

} // namespace mellowbin::aging
