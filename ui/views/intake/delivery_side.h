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

/// Nothing is typed any more: a delivery that begins.
void empty(IntakeView& view);

/// Its weight on the note, and what is seldom said of the whole.
void draw_whole(IntakeView& view, const app::IntakeModel& model);
/// The expected deliveries that it may be, or the one it is; how its weights stand, and why they are let be.
void draw_match(IntakeView& view, const app::IntakeModel& model);
/// The order that a label says: with its number the expected delivery is chosen. What came of it, in words.
std::string take_order(IntakeView& view, const app::IntakeModel& model);

/// Deliveries that were begun and put aside; nothing where there are none.
void draw_begun(IntakeView& view, const app::IntakeModel& model, app::Intents& out);
/// What is typed goes into the book, for whoever goes on with it.
void put_aside(IntakeView& view, const app::Notice& notice, app::Intents& out);
/// What was put aside here leaves the form, and what was taken over stands in it.
void take_over_begun(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                     app::Intents& out);
/// A delivery that was taken over, and of which nothing is left, is begun no more.
void throw_away_if_empty(IntakeView& view, app::Intents& out);

/// The delivery as it fills: where from, the scan, a line a lot, the door.
void draw_delivery(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice, Day today,
                   app::Intents& out);
/// The one button, which says what it will do, and what stays.
void draw_take_in(IntakeView& view, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
