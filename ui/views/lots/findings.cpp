#include "ui/views/lots/findings.h"

#include "ui/views/common/findings.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {
using ui::Role;

void draw_best_before(const app::LotSheet& sheet) {
    if (sheet.best_before_words.empty())
        return;
    if (sheet.is_over)
        ui::status(Role::stop, fmt::format("Over: {}", sheet.best_before_words));
    else
        ui::status(Role::ink, sheet.best_before_words);
}

void draw_door(const app::LotSheet& sheet) {
    if (sheet.door.empty())
        ui::hint("No check at the door was logged.");
    draw_findings(sheet.door);
    if (!sheet.delivered_words.empty())
        ui::paragraph(sheet.delivered_words);
}

void draw_before_release(const app::LotSheet& sheet) {
    draw_best_before(sheet);
    draw_door(sheet);
    draw_findings(sheet.results);
}

} // namespace mellowbin::views
