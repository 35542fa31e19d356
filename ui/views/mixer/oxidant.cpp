#include "ui/views/mixer/oxidant.h"

#include "app/models/card.h"
#include "ui/views/common/figures.h"

#include <fmt/format.h>

#include <optional>

namespace mellowbin::views {

using namespace ui;

namespace {

void draw_no_oxidant(const app::CardModel& card) {
    panel("Oxidant", [&] {
        paragraph("None", {.size = TextSize::mixer_text});
        if (!card.oxidant.note.empty())
            hint(card.oxidant.note);
    });
}

/// What is weighed; of a stock solution what is poured, and beside it the grams that are in it.
void draw_dose(const app::CardModel& card) {
    flow([&] {
        draw_figure(card.oxidant, card.units, TextSize::mixer_text);
        if (card.oxidant.unit != "g" && card.substance.value)
            draw_figure(card.substance, card.units, TextSize::key_figure);
    });
}

/// Where none is weighed there is nothing to beware of.
std::optional<Role> oxidant_role(const app::CardModel& card) {
    std::optional<Role> role;
    for (const auto& caution : card.cautions)
        if (is_beside_oxidant(caution) && role != Role::stop)
            role = caution.is_stop ? Role::stop : Role::mind;
    return card.solution_is_past ? Role::stop : role;
}

} // namespace

void draw_caution(const app::CardCaution& caution) {
    const Role role = caution.is_stop ? Role::stop : Role::mind;
    paragraph(fmt::format("{} {}", sign(role), caution.words), {.role = role});
}

bool is_beside_oxidant(const app::CardCaution& caution) {
    return caution.beside == app::CardCaution::Beside::oxidant;
}

void draw_oxidant(const app::CardModel& card, Body solution) {
    if (card.oxidant.label.empty()) {
        draw_no_oxidant(card);
        return;
    }
    const auto body = [&] {
        draw_dose(card);
        solution();
        for (const auto& caution : card.cautions)
            if (is_beside_oxidant(caution))
                draw_caution(caution);
        if (!card.oxidant.note.empty())
            hint(card.oxidant.note);
    };
    if (const auto role = oxidant_role(card))
        loud_panel(*role, {}, body);
    else
        panel({}, body);
}

} // namespace mellowbin::views
