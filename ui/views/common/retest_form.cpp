#include "ui/views/common/retest_form.h"

#include "app/acts/notice.h"
#include "app/acts/retests.h"
#include "app/models/readiness.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr std::string_view whole_lot = "The lot as a whole";

void take_answer(RetestForm& form, const app::ReadinessModel& model, const app::Notice& notice) {
    const auto logged = form.take_accepted(model.retests_logged, notice);
    if (!logged)
        return;
    form.forget(*logged);
    form.is_open = false;
}

void place_field(RetestDraft& draft, const app::ReadinessModel& model, const Refusals& refusals) {
    std::vector<std::string> names{std::string(whole_lot)};
    names.insert(names.end(), model.places.begin(), model.places.end());
    std::string name = draft.place.empty() ? names.front() : draft.place;
    if (name_choice({.label = "Place", .refusals = &refusals, .width = 14_em}, names, name))
        draft.place = name == whole_lot ? std::string() : name;
}

/// Refusals of fields that the form does not have, too: nothing is refused in silence.
void other_refusals(const app::ReadinessModel& model, const Refusals& refusals) {
    std::vector<std::string_view> fields{"Taken on", "Place", "Note"};
    for (const auto property : model.tests)
        fields.push_back(traits(property).name);
    ui::all_refusals(all_but(refusals, fields));
}

void fields(RetestDraft& draft, const app::ReadinessModel& model, const Refusals& refusals) {
    ui::flow([&] {
        ui::date_field({.label = "Taken on", .hint = "empty: today", .refusals = &refusals, .width = 8_em},
                       draft.taken_on, model.today);
        place_field(draft, model, refusals);
    });
    for (const auto property : model.tests)
        ui::scope(traits(property).name, [&] {
            ui::flow(
                [&] { figure_fields(draft.figure(property), refusals, model.bases, AskMethod::always); });
        });
    ui::text_field({.label = "Note", .refusals = &refusals}, draft.note);
    other_refusals(model, refusals);
}

} // namespace

void draw(RetestForm& form, RetestOf whose, const app::ReadinessModel& model, const app::Notice& notice,
          app::Intents& out) {
    take_answer(form, model, notice);
    if (!form.is_open) {
        form.is_open = form.wants_focus = ui::button("Log a retest");
        return;
    }
    if (std::exchange(form.wants_focus, false))
        ui::focus_first_empty_field();
    auto& draft = form.drafts[whose.lot];
    ui::panel(fmt::format("Retest of {}", whose.code), [&] {
        ui::hint("Leave empty what was not measured. Only results of one method can be compared.");
        ui::form("Retest", [&] {
            fields(draft, model, form.refusals_of(whose.lot));
            changed_meanwhile(whose.changed);
            ui::flow([&] {
                if (ui::button("Log the retest", {.kind = ui::ButtonKind::primary})) {
                    form.ask(whose.lot, notice);
                    out.emplace_back(app::LogRetest{whose.lot, draft});
                }
                if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                    form.is_open = false;
            });
        });
    });
}

} // namespace mellowbin::views
