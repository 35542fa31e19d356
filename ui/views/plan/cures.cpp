#include "ui/views/plan/cures.h"

#include "app/acts/give_lot.h"
#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/acts/runs.h"
#include "app/models/run_cures.h"
#include "ui/views/common/day_words.h"
#include "ui/views/plan/planned_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace mellowbin::views {

using namespace ui;

namespace {

using Kind = app::RunCure::Kind;

struct StandingWords {
    Role role = Role::good;
    std::string word, sentence;
};

/// The gravest first; what else fails stands in the sentence.
StandingWords words_for_standing(const app::PlannedRun& run) {
    const auto faults = faults_of(run);
    if (run.short_kg > 0)
        return {Role::stop, "Not enough flour", fmt::format("Short of {} kg.", kilograms(run.short_kg))};
    if (faults.empty())
        return {Role::good, "It holds",
                run.oxidant_ppm > 0 ? run.oxidant_words + "." : "Nothing is missing."};
    const auto parts = parts_of(run);
    if (parts[0].role == Role::stop)
        return {Role::stop, "Not strong enough yet", fmt::format("Maturity {}.", parts[0].words)};
    if (parts[1].role == Role::stop)
        return {Role::stop, "Out of specification", as_sentence(parts[1].words) + "."};
    if (parts[2].name == "Card" && !run.verdict->reasons.empty())
        return {parts[2].role, parts[2].words, run.verdict->reasons.front().words + "."};
    return {parts[2].role, as_sentence(parts[2].words), run.dose_withheld};
}

const app::RunCures* cures_of(const app::PlannedRun& run, const app::PlanModel& model) {
    return model.cures && model.cures->run == run.id ? &*model.cures : nullptr;
}

/// "Tue 84", "Wed 85 ✓".
void draw_ahead(const app::PlannedRun& run, const app::RunCures& cures, Role role) {
    std::vector<std::string> words;
    std::vector<Pill> row;
    words.reserve(cures.ahead.size());
    for (const auto& day : cures.ahead) {
        const auto name = short_day(day.day);
        words.push_back(fmt::format("{} {:.0f}{}", name.substr(0, name.find(' ')), 100 * day.maturity,
                                    day.is_enough ? " ✓" : ""));
        const bool is_here = day.day == run.day;
        row.push_back({words.back(), is_here ? role : day.is_enough ? Role::good : Role::ink, is_here});
    }
    pills("The same flour on other days", row);
}

app::Intent act_of(const app::RunCure& cure, const app::PlannedRun& run) {
    switch (cure.kind) {
    case Kind::move:
        return app::ChangeRun{run.id, "", iso(*cure.day), "", ""};
    case Kind::fewer:
        return app::ChangeRun{run.id, "", "", std::to_string(cure.batches), ""};
    case Kind::take:
        return app::GiveLot{cure.lot, {}, run.id, to_grams(Kilograms{cure.kg})};
    case Kind::judge:
    case Kind::order:
        break;
    }
    return app::Search{cure.lot_code}; // leads to its sheet, where it is judged
}

void do_it(PlanView& view, const app::RunCure& cure, const app::PlannedRun& run, app::Intents& out) {
    if (cure.kind != Kind::order) {
        out.push_back(act_of(cure, run));
        return;
    }
    auto& form = view.flour.expect;
    form.is_open = true;
    form.flour = cure.flour;
    form.kg = fmt::format("{:.0f}", cure.kg); // as a person types it
    form.arrives = cure.day ? iso(*cure.day) : "";
    view.page = PlanView::flour_page;
}

} // namespace

void draw_standing(const app::PlannedRun& run, const app::PlanModel& model) {
    const auto told = words_for_standing(run);
    loud_panel(told.role, "", [&] {
        text(fmt::format("{} {}", sign(told.role), told.word),
             {.size = TextSize::heading, .role = told.role, .weight = Weight::bold});
        if (!told.sentence.empty())
            paragraph(told.sentence);
        const auto* cures = cures_of(run, model);
        if (cures != nullptr && !cures->ahead.empty())
            draw_ahead(run, *cures, told.role);
    });
    if (run.is_past)
        hint("It is past.");
    else if (run.is_frozen)
        hint("Fixed: mixed already, or too near to be changed.");
    if (!run.changed.empty())
        status(Role::mind, "Changed at another station: " + run.changed);
    if (run.is_changed)
        status(Role::accent, "Changed: the proposed plan has other lots or masses than the book.");
}

void draw_cures(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out) {
    const auto* cures = cures_of(run, model);
    if (cures == nullptr || view.tried(model) == Tried::supposed)
        return;
    bool is_first = true;
    for (const auto& cure : cures->cures) {
        if (button(cure.verb,
                   {.kind = is_first ? ButtonKind::primary : ButtonKind::ordinary, .width = width_left()}))
            do_it(view, cure, run, out);
        hint(cure.price);
        is_first = false;
    }
    if (!cures->why_none.empty() && !run.is_past && !run.is_frozen)
        hint(cures->why_none);
}

} // namespace mellowbin::views
