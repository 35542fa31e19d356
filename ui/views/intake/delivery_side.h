#pragma once

#include "ui/views/intake/view.h"

#include <cstdint>
#include <string>
#include <vector>

namespace mellowbin::views {

/// How a lot of the delivery stands, in the fewest words.
struct LotMark {
    std::string words;
    ui::Role role = ui::Role::quiet;
};
LotMark mark_of(const IntakeView& view, const DeliveryLine& line);

/// Lots that can be taken in as they stand.
std::vector<std::int64_t> whole_lots(const IntakeView& view);

/// The delivery as it fills: where from, the scan, a line a lot, the door.
void draw_delivery(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice, Day today,
                   app::Intents& out);
/// The one button, which says what it will do, and what stays.
void draw_take_in(IntakeView& view, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
