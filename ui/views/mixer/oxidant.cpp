#include "ui/views/mixer/oxidant.h"

#include "app/models/card.h"
#include "ui/views/common/figures.h"

#include <fmt/format.h>

#include <algorithm>
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

/// One figure to act on; where it comes from stands beneath.
void draw_dose(const app::CardModel& card) { draw_figure(card.oxidant, card.units, TextSize::mixer_text); }

/// Where none is weighed there is nothing to beware of.
std::optional<Role> oxidant_role(const app::CardModel& card) {
    if (!card.oxidant.value || card.solution_is_past)
        return Role::stop;
    const bool has_caution = std::any_of(card.cautions.begin(), card.cautions.end(), is_beside_oxidant);
    return has_caution ? std::optional{Role::mind} : std::nullopt;
}

} // namespace

void draw_caution(const app::CardCaution& caution) {
    paragraph(fmt::format("{} {}", sign(Role::mind), caution.words), {.role = Role::mind});
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
