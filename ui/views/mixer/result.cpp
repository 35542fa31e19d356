#include "ui/views/mixer/result.h"

#include "app/acts/batches.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr std::array feels{Feel::stiff, Feel::right, Feel::slack};

void feel_choice(ResultDraft& draft, const Refusals& refusals) {
    const std::array<std::string_view, feels.size()> names{name_of(feels[0]), name_of(feels[1]),
                                                           name_of(feels[2])};
    const auto now = feel_from_key(draft.feel);
    int chosen = now ? static_cast<int>(*now) : -1;
    if (ui::choice({.label = "Feel", .refusals = &refusals, .width = 22_em}, names, chosen))
        draft.feel = key_of(feels[static_cast<std::size_t>(chosen)]);
}

void fields(ResultDraft& draft, const app::CardModel& card, const Refusals& refusals) {
    const auto number = [&](std::string_view label, std::string_view unit, std::string& text) {
        ui::number_field({.label = label, .unit = unit, .refusals = &refusals, .width = 9_em}, text);
    };
    ui::all_refusals(
        all_but(refusals, {"Dough temperature", "pH", "Feel", "Mixing", "Fermentation", "Note", "Reason"}));
    feel_choice(draft, refusals);
    ui::grid(14_em, [&] {
        number("Dough temperature", card.units.temperature(), draft.dough_temperature);
        number("pH", "", draft.ph);
        number("Mixing", "min", draft.mixing_minutes);
        number("Fermentation", "min", draft.fermentation_minutes);
        ui::whole_row([&] { ui::text_field({.label = "Note", .refusals = &refusals}, draft.note); });
        const bool asks_reason = std::any_of(refusals.begin(), refusals.end(),
                                             [](const Refusal& one) { return one.field == "Reason"; });
        if (asks_reason || !draft.answer.empty())
            ui::whole_row([&] {
                ui::text_field({.label = "Reason", .hint = "why it is so", .refusals = &refusals},
                               draft.answer);
            });
    });
}

} // namespace

const app::BatchRow* opened(const ResultForm& form, const app::CardModel& card) {
    const auto at = std::find_if(card.logged.begin(), card.logged.end(), [&](const app::BatchRow& row) {
        return form.open == row.id && !row.is_countered;
    });
    return at == card.logged.end() ? nullptr : &*at;
}

const app::BatchRow* newest_unsaid(const app::CardModel& card) {
    const auto at = std::find_if(card.logged.begin(), card.logged.end(), [](const app::BatchRow& row) {
        return !row.is_countered && row.result_words.empty();
    });
    return at == card.logged.end() ? nullptr : &*at;
}

void draw(ResultForm& form, const app::BatchRow& batch, const app::CardModel& card, const app::Notice& notice,
          app::Intents& out) {
    if (std::exchange(form.wants_focus, false))
        ui::focus_first_empty_field();
    auto& draft = form.drafts[batch.id];
    ui::large([&] {
        ui::form("Result", [&] {
            constexpr float acts_high = 5;
            ui::scroll_area("Came", {std::max(4.5F, ui::height_left().ems - acts_high)}, [&] {
                ui::panel(fmt::format("What came of batch {}?", batch.number), [&] {
                    ui::hint("It took " + batch.words);
                    ui::hint("Leave empty what was not measured.");
                    fields(draft, card, form.refusals_of(batch.id));
                });
            });
            ui::flow([&] {
                const bool is_asked = form.is_sent(batch.id);
                if (ui::button("Log what came of it", {.kind = ui::ButtonKind::primary,
                                                       .blocked = is_asked ? "is being written" : ""})) {
                    form.ask(batch.id, notice);
                    out.emplace_back(app::LogResult{batch.id, draft});
                }
                if (ui::button("Close form", {.key = "Esc"}))
                    form.open.reset();
            });
        });
    });
    if (ui::key_pressed(ui::Key::escape))
        form.open.reset();
}

} // namespace mellowbin::views
