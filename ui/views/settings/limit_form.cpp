#include "ui/views/settings/limit_form.h"

#include "app/acts/limits.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

void status_choice(LimitDraft& draft, const Refusals& refusals) {
    const auto statuses = all_limit_statuses();
    std::vector<std::string_view> names;
    int chosen = -1;
    for (const auto status : statuses) {
        if (key_of(status) == draft.status)
            chosen = static_cast<int>(names.size());
        names.push_back(name_of(status));
    }
    if (ui::choice({.label = "Status", .refusals = &refusals, .width = 20_em}, names, chosen))
        draft.status = key_of(statuses[static_cast<std::size_t>(chosen)]);
}

void fields(LimitDraft& draft, const Refusals& refusals) {
    status_choice(draft, refusals);
    ui::number_field({.label = "Limit",
                      .unit = "mg/kg",
                      .hint = "empty: no figure",
                      .refusals = &refusals,
                      .width = 12_em},
                     draft.figure);
    ui::text_field({.label = "Source", .hint = "statute and section", .refusals = &refusals, .width = 20_em},
                   draft.source);
    ui::text_field({.label = "Source date", .refusals = &refusals, .width = 20_em}, draft.source_date);
    ui::all_refusals(all_but(refusals, {"Status", "Limit", "Source", "Source date"}));
}

/// "permitted, 40 mg/kg by Ordinance 7"
std::string words_for(const app::LimitLine& line) {
    const auto status = limit_status_from_key(line.draft.status);
    auto words = status ? std::string(name_of(*status)) : line.draft.status;
    if (!line.draft.figure.empty())
        words += fmt::format(", {} mg/kg", line.draft.figure);
    return words + (line.draft.source.empty() ? "" : " by " + line.draft.source);
}

} // namespace

std::int64_t record_of(LimitRef limit) {
    return limit.of == LimitRef::Of::oxidants ? limit.number : -limit.number;
}

void draw(LimitForm& form, const app::LimitLine& line, const app::SettingsModel& model,
          const app::Notice& notice, app::Intents& out) {
    form.take_answer(model.limits_changed, notice);
    const auto record = record_of(line.id);
    if (!form.is_open_for(record)) {
        if (ui::button("Change this limit"))
            form.open_for(record, line.draft);
        return;
    }
    if (std::exchange(form.wants_focus, false))
        ui::focus("Limit");
    ui::gap();
    if (const auto first = form.firsts.find(record);
        first != form.firsts.end() && first->second != line.draft)
        stands_otherwise(words_for(line), line.changed);
    ui::hint("Changed, it is not confirmed until somebody confirms it again.");
    ui::form("Change", [&] {
        fields(form.drafts[record], form.refusals_of(record));
        ui::flow([&] {
            if (ui::button("Keep the change", {.kind = ui::ButtonKind::primary}) && !form.is_sent(record)) {
                form.ask(record, notice);
                out.emplace_back(app::ChangeLimit{line.id, form.drafts[record]});
            }
            if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                form.open.reset();
        });
    });
}

} // namespace mellowbin::views
