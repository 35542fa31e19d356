#include "ui/views/settings/learned.h"

#include "app/acts/intent.h"
#include "app/acts/learning.h"
#include "app/models/learning.h"
#include "ui/widgets/ui.h"

#include <string_view>

namespace mellowbin::views {
namespace {

using ui::Role;

std::string_view or_dash(const std::string& words) { return words.empty() ? std::string_view("–") : words; }

void standing(const app::LearningModel& model, app::Intents& out) {
    using ui::ButtonKind;
    ui::panel("Which figures hold", [&] {
        ui::paragraph(model.standing, {.weight = ui::Weight::bold});
        ui::status(Role::mind, "An estimate is no promise of strength: these figures say how flour has "
                               "matured here so far. A retest before use shows what a lot can do.");
        if (model.is_stale && !model.rows.empty())
            ui::status(Role::mind, "A retest has changed since these figures were worked out.");
        ui::flow([&] {
            if (model.is_stale && ui::button("Work out what the retests say", {.kind = ButtonKind::primary}))
                out.emplace_back(app::CompareLearned{});
            if (ui::button("Use what the retests say",
                           {.kind = model.is_stale ? ButtonKind::ordinary : ButtonKind::primary,
                            .blocked = model.blocked}))
                out.emplace_back(app::AdoptLearned{});
            if (model.is_learned && ui::button("Back to the published figures"))
                out.emplace_back(app::RestoreLearned{LearningId{0}});
        });
    });
}

void figure(const app::LearnedRow& row) {
    ui::panel(row.what, [&] {
        ui::fact({.label = "Published", .value = or_dash(row.published)});
        ui::fact({.label = "Holds now", .value = or_dash(row.holds)});
        ui::fact({.label = "The retests say", .value = or_dash(row.offered), .role = Role::model});
        if (!row.meaning.empty())
            ui::paragraph(row.meaning);
        if (!row.from.empty())
            ui::hint("From " + row.from);
    });
}

} // namespace

void draw_learned(const app::LearningModel& model, app::Intents& out) {
    ui::scroll_area("Learned", {}, [&] {
        standing(model, out);
        if (model.rows.empty() && model.is_stale)
            ui::hint("What the retests say was not worked out yet.");
        else if (model.rows.empty())
            ui::hint("Nothing was learned yet. Log retests of several lots, each at two ages or more.");
        for (const auto& row : model.rows)
            ui::scope(row.what, [&] { figure(row); });
    });
}

} // namespace mellowbin::views
