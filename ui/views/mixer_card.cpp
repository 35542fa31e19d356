#include "ui/views/mixer_card.h"

#include "ui/views/plan_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace mellowbin::views {

using namespace ui;

namespace {

/// A figure and its unit are never parted at the end of a line.
constexpr const char* hard_space = "\u00a0";

/// What is put on the scale: whole bags and the rest, or all of it where the flour comes loose.
std::string act_of(const app::CardLot& lot) {
    if (lot.bags == 0)
        return fmt::format("{}{}kg", kilograms(lot.kg), hard_space);
    const std::string bags = fmt::format("{}{}{}", lot.bags, hard_space, lot.bags == 1 ? "bag" : "bags");
    return lot.loose_kg > 0 ? fmt::format("{} + {}{}kg", bags, kilograms(lot.loose_kg), hard_space) : bags;
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
    panel({}, [&] {
        figure({.label = "Water", .number = card.water_kg, .unit = "kg", .size = TextSize::mixer_water});
        grid(10_em, [&] {
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
            hint("Water: " + card.water_note);
    });
}

enum class IsStop { yes, no };

void draw_caution(const app::CardCaution& caution) {
    const Role role = caution.is_stop ? Role::stop : Role::mind;
    paragraph(fmt::format("{} {}", sign(role), caution.words), {.role = role});
}

bool is_beside_oxidant(const app::CardCaution& caution) {
    return caution.beside == app::CardCaution::Beside::oxidant;
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
    const auto body = [&] {
        figure({.label = card.oxidant,
                .number = card.oxidant_amount,
                .unit = card.oxidant_unit,
                .note = card.oxidant_note,
                .size = TextSize::mixer_text});
        for (const auto& caution : card.cautions)
            if (is_beside_oxidant(caution))
                draw_caution(caution);
    };
    // Where none is weighed there is nothing to beware of.
    if (std::any_of(card.cautions.begin(), card.cautions.end(), is_beside_oxidant))
        loud_panel(Role::mind, {}, body);
    else
        panel({}, body);
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
    panel("Run", [&] {
        paragraph(fmt::format("{} on {}, {}", card.run_code, card.line, short_day(card.day)));
        paragraph("Sold in " + card.market);
    });
}

/// The cautions of the whole card: those that stop above it, those to mind beneath the flour, where it is
/// tipped.
void draw_cautions(const app::CardModel& card, IsStop which) {
    for (const auto& caution : card.cautions)
        if (!is_beside_oxidant(caution) && caution.is_stop == (which == IsStop::yes))
            draw_caution(caution);
}

void draw_figures(const app::CardModel& card) {
    if (card.figures.empty())
        return;
    panel("Blend and other ingredients", [&] {
        for (const auto& line : card.figures)
            fact({.label = line.label, .value = line.value, .unit = line.unit, .note = line.note});
    });
}

} // namespace

void draw_card(const app::CardModel& card) {
    draw_cautions(card, IsStop::yes);
    const auto flour = [&] {
        draw_lots(card);
        draw_cautions(card, IsStop::no);
    };
    const auto water = [&] {
        draw_water(card);
        draw_figures(card);
    };
    const auto oxidant_and_aims = [&] {
        draw_oxidant(card);
        draw_aims(card);
    };
    // Beneath this width they stand under each other and scroll as one.
    constexpr float three_beside = 51;
    if (width_left().ems < three_beside) {
        flour();
        water();
        oxidant_and_aims();
        return;
    }
    panes({{.name = "Flour", .share = 0.15F, .least = 20_em, .body = flour},
           {.name = "Water", .share = 0.65F, .least = 16.5_em, .body = water},
           {.name = "Oxidant and aims", .share = 0.2F, .least = 12.5_em, .body = oxidant_and_aims}});
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
