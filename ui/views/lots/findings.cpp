#include "ui/views/lots/findings.h"

#include "app/models/lot_agreements.h"
#include "ui/views/common/findings.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <set>
#include <vector>

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

void draw_agreements(const app::LotSheet& sheet) {
    std::set<Property> told;
    std::vector<app::AgreementRow> newest;
    for (const auto& row : sheet.agreements)
        if (told.insert(row.property).second)
            newest.push_back(row);
    std::vector<app::AgreementRow> compared;
    for (const auto& row : newest)
        if (row.verdict != ComparedResult::Verdict::not_said)
            compared.push_back(row);
    draw_findings(app::findings_of(compared));
    for (const auto& row : newest)
        if (row.verdict == ComparedResult::Verdict::not_said)
            ui::hint(fmt::format("{}: {}{}{}", traits(row.property).name, row.words,
                                 row.aging.empty() ? "" : ". Beside it: ", row.aging));
}

void draw_before_release(const app::LotSheet& sheet) {
    draw_best_before(sheet);
    draw_door(sheet);
    draw_findings(sheet.results);
    draw_agreements(sheet);
}

} // namespace mellowbin::views
