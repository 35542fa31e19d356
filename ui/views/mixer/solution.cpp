#include "ui/views/mixer/solution.h"

#include "app/acts/notice.h"
#include "app/acts/solutions.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

void draw_fields(SolutionForm& form, const app::MixerModel& model) {
    const auto* refusals = &form.made.refusals;
    name_choice({.label = "Oxidant", .refusals = refusals}, model.oxidants, form.substance);
    number_field({.label = "Strength", .unit = "g/L", .refusals = refusals, .width = 6_em}, form.strength);
    number_field({.label = "Keeps", .unit = "h", .hint = "as set", .refusals = refusals, .width = 6_em},
                 form.keeps);
    const bool asks_reason = std::any_of(refusals->begin(), refusals->end(),
                                         [](const Refusal& one) { return one.field == "Reason"; });
    if (asks_reason || !form.answer.empty())
        text_field({.label = "Reason", .hint = "why it is so", .refusals = refusals}, form.answer);
    all_refusals(all_but(*refusals, {"Oxidant", "Strength", "Keeps", "Reason"}));
}

void draw_form(SolutionForm& form, const app::MixerModel& model, const app::Notice& notice,
               app::Intents& out) {
    if (std::exchange(form.wants_focus, false))
        focus_first_empty_field();
    ui::form("Solution", [&] {
        draw_fields(form, model);
        flow([&] {
            if (button("Solution is made", {.kind = ButtonKind::primary,
                                            .blocked = form.made.is_waiting() ? "is being written" : ""})) {
                form.made.ask(notice);
                out.emplace_back(app::MakeSolution{form.substance, form.strength, form.keeps, form.answer});
            }
            if (button("Close form"))
                form.is_open = false;
        });
    });
    if (key_pressed(Key::escape))
        form.is_open = false;
}

void draw_words(const app::CardModel& card) {
    if (card.solution_is_past)
        paragraph(fmt::format("{} Past its time: pour it away", sign(Role::stop)),
                  {.size = TextSize::figure, .role = Role::stop, .weight = Weight::bold});
    if (!card.solution.empty())
        paragraph(card.solution, {.size = TextSize::heading});
}

} // namespace

void SolutionForm::take_answer(const app::Notice& notice) {
    if (made.is_done(notice)) {
        is_open = false;
        substance.clear();
        strength.clear();
        keeps.clear();
        answer.clear();
    }
    ended.is_done(notice);
}

void draw(SolutionForm& form, const app::MixerModel& model, const app::Notice& notice, app::Intents& out) {
    const auto& card = *model.card;
    draw_words(card);
    all_refusals(form.ended.refusals);
    large([&] {
        if (card.solution_id &&
            button("Poured away", {.kind = card.solution_is_past ? ButtonKind::stop : ButtonKind::quiet})) {
            form.ended.ask(notice);
            out.emplace_back(app::EndSolution{*card.solution_id});
        }
        if (form.is_open) {
            draw_form(form, model, notice, out);
            return;
        }
        const bool is_wanted = card.solution_is_past || card.pours;
        if (model.oxidants.empty() || (!card.solution.empty() && !card.solution_is_past))
            return;
        if (!button("New solution", {.kind = is_wanted ? ButtonKind::ordinary : ButtonKind::quiet}))
            return;
        form.is_open = form.wants_focus = true;
        const bool is_known = std::find(model.oxidants.begin(), model.oxidants.end(), card.oxidant.label) !=
                              model.oxidants.end();
        if (form.substance.empty() && is_known)
            form.substance = card.oxidant.label;
    });
}

} // namespace mellowbin::views
