#include "ui/views/mixer_card.h"

#include "ui/views/plan_words.h"

#include <fmt/format.h>

#include <string>

namespace mellowbin::views {

using namespace ui;

namespace {

/// What is put on the scale: whole bags and the rest, or all of it where the flour comes loose.
std::string act_of(const app::CardLot& lot) {
    if (lot.bags == 0)
        return kilograms(lot.kg) + " kg";
    const std::string bags = counted(static_cast<std::size_t>(lot.bags), "bag", "bags");
    return lot.loose_kg > 0 ? fmt::format("{} + {} kg", bags, kilograms(lot.loose_kg)) : bags;
}

void draw_lots(const app::CardModel& card) {
    panel(fmt::format("Flour {} kg", kilograms(card.flour_kg)), [&] {
        for (const auto& lot : card.lots) {
            paragraph(lot.code, {.size = TextSize::figure, .weight = Weight::bold});
            paragraph(act_of(lot), {.size = TextSize::mixer_text});
            std::string where = lot.bags > 0 ? kilograms(lot.kg) + " kg" : std::string{};
            for (const std::string& words : {lot.place, lot.readiness})
                if (!words.empty())
                    where += (where.empty() ? "" : " · ") + words;
            paragraph(where, {.size = TextSize::heading, .role = Role::quiet});
            gap();
        }
    });
}

void draw_water(const app::CardModel& card) {
    panel("Water", [&] {
        figure({.label = "Water", .number = card.water_kg, .unit = "kg", .size = TextSize::mixer_water});
        flow([&] {
            figure({.label = "Water temperature",
                    .number = card.water_temperature,
                    .unit = "°C",
                    .note = card.water_temperature_note,
                    .size = TextSize::mixer_figure});
            figure({.label = "Ice",
                    .number = card.ice_kg,
                    .unit = "kg",
                    .note = card.ice_note,
                    .size = TextSize::mixer_figure});
        });
        if (!card.water_note.empty())
            hint(card.water_note);
    });
}

void draw_caution(const app::CardCaution& caution) {
    const Role role = caution.is_stop ? Role::stop : Role::mind;
    paragraph(fmt::format("{} {}", sign(role), caution.words), {.role = role});
}

void draw_oxidant(const app::CardModel& card) {
    if (card.oxidant.empty()) {
        panel("Oxidant", [&] {
            paragraph("None", {.size = TextSize::mixer_text});
            if (!card.oxidant_note.empty())
                hint(card.oxidant_note);
        });
        return;
    }
    loud_panel(Role::mind, card.oxidant, [&] {
        figure({.label = "Oxidant",
                .number = card.oxidant_amount,
                .unit = card.oxidant_unit,
                .note = card.oxidant_note,
                .size = TextSize::mixer_text});
        for (const auto& caution : card.cautions)
            if (caution.beside == app::CardCaution::Beside::oxidant)
                draw_caution(caution);
    });
}

void draw_aims(const app::CardModel& card) {
    panel("Aims", [&] {
        figure({.label = "Dough temperature",
                .number = card.dough_temperature,
                .unit = "°C",
                .size = TextSize::key_figure});
        text("Fermentation", {.role = Role::quiet});
        paragraph(card.fermentation, {.size = TextSize::heading});
    });
}

void draw_beneath(const app::CardModel& card) {
    for (const auto& caution : card.cautions)
        if (caution.beside == app::CardCaution::Beside::card)
            draw_caution(caution);
    if (card.figures.empty())
        return;
    gap();
    panel("Blend and other ingredients", [&] {
        for (const auto& line : card.figures)
            fact({.label = line.label, .value = line.value, .unit = line.unit, .note = line.note});
    });
}

} // namespace

void draw_card(const app::CardModel& card) {
    grid(16_em, [&] {
        draw_lots(card);
        draw_water(card);
        stack({}, [&] {
            draw_oxidant(card);
            draw_aims(card);
        });
    });
    draw_beneath(card);
}

void draw_no_card(const app::CardModel& card) {
    loud_panel(Role::stop, {}, [&] {
        paragraph(fmt::format("{} No card: do not mix this run", sign(Role::stop)),
                  {.size = TextSize::mixer_text, .role = Role::stop});
        for (const auto& refusal : card.refusals) {
            gap();
            paragraph(refusal.field.empty() ? refusal.what : refusal.field + ": " + refusal.what,
                      {.size = TextSize::key_figure});
            if (!refusal.remedy.empty())
                paragraph(refusal.remedy, {.size = TextSize::figure, .role = Role::quiet});
        }
    });
    for (const auto& caution : card.cautions)
        draw_caution(caution);
}

} // namespace mellowbin::views
