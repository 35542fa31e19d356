#include "ui/views/lots/findings.h"

#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {
using ui::Role;

Role role_of(app::Finding::Weight weight) {
    switch (weight) {
    case app::Finding::Weight::well:
        return Role::good;
    case app::Finding::Weight::mind:
        return Role::mind;
    case app::Finding::Weight::against:
        return Role::stop;
    }
    return Role::ink;
}

void draw_findings(const std::vector<app::Finding>& findings) {
    for (const auto& finding : findings)
        ui::status(role_of(finding.weight), finding.words);
}

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
