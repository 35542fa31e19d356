#include "ui/views/mixer/card.h"

#include "app/models/card.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/figures.h"
#include "ui/views/mixer/oxidant.h"

#include <fmt/format.h>

#include <string>
#include <string_view>

namespace mellowbin::views {

using namespace ui;

namespace {

/// A figure and its unit are never parted at the end of a line.
constexpr const char* hard_space = "\u00a0";

/// What is put on the scale: whole bags and the rest, or all of it where the flour comes loose.
std::string act_of(const app::CardModel& card, const app::CardLot& lot) {
    const auto words = [&](double mass) {
        return fmt::format("{}{}{}", house_mass(card, mass), hard_space, card.units.mass());
    };
    if (lot.is_withheld)
        return "withheld";
    if (lot.bags == 0)
        return words(lot.kg);
    const std::string bags = fmt::format("{}{}{}", lot.bags, hard_space, lot.bags == 1 ? "bag" : "bags");
    return lot.loose_kg > 0 ? fmt::format("{} + {}", bags, words(lot.loose_kg)) : bags;
}

/// Where it lies and how ripe it is; of bags, what they come to.
std::string about(const app::CardModel& card, const app::CardLot& lot) {
    std::string words;
    if (lot.bags > 0 && !lot.is_withheld)
        words = fmt::format("{} {}", house_mass(card, lot.kg), card.units.mass());
    for (const std::string& more : {lot.place, lot.readiness})
        if (!more.empty())
            words += (words.empty() ? "" : " · ") + more;
    return words;
}

/// The lot's code, and by word whether a bag of it was scanned.
void draw_code(const app::CardModel& card, const app::CardLot& lot) {
    Role role = Role::ink;
    std::string_view scanned;
    if (lot.is_scanned) {
        role = Role::good;
        scanned = "scanned";
    } else if (card.needs_scan) {
        role = Role::mind;
        scanned = "to scan";
    }
    paragraph(scanned.empty() ? lot.code : fmt::format("{} {} {}", lot.code, sign(role), scanned),
              {.size = TextSize::figure, .role = role, .weight = Weight::bold});
}

void draw_lots(const app::CardModel& card) {
    const auto scanned = card.scanned_words.empty() ? std::string{} : " · " + card.scanned_words;
    panel(fmt::format("Flour {} {}{}", house_mass(card, card.flour_kg), card.units.mass(), scanned), [&] {
        for (const auto& lot : card.lots) {
            draw_code(card, lot);
            paragraph(act_of(card, lot), {.size = TextSize::mixer_text});
            paragraph(about(card, lot), {.size = TextSize::heading, .role = Role::quiet});
            gap();
        }
    });
}

void draw_water(const app::CardModel& card) {
    panel({}, [&] {
        draw_figure(card.water, card.units, TextSize::mixer_water);
        grid(10_em, [&] {
            draw_figure(card.water_temperature, card.units, TextSize::mixer_figure);
            draw_figure(card.ice, card.units, TextSize::mixer_figure, card.ice.note);
        });
    });
}

/// Where the figures of the water come from: read once, so it stands beneath what is done.
void draw_water_notes(const app::CardModel& card) {
    if (card.water_temperature.note.empty() && card.water.note.empty())
        return;
    panel({}, [&] {
        if (!card.water_temperature.note.empty())
            hint("Temperature: " + card.water_temperature.note);
        if (!card.water.note.empty())
            hint("Water: " + card.water.note);
        if (!card.water_range_words.empty())
            hint(card.water_range_words + ".");
    });
}

bool is_imminent(const app::CardModel& card) { return card.change && card.change->batch == card.batch + 1; }

void draw_change(const app::CardChange& change, const HouseUnits& house, std::string_view from) {
    paragraph(fmt::format("{} {}: {}", sign(Role::mind), from, change.words),
              {.size = TextSize::heading, .role = Role::mind});
    for (const auto& [then, now] : change.lines) {
        const auto [value, unit] = shown(then, house);
        paragraph(fmt::format("{} {} {}, {} now", then.label, value, unit, shown(now, house).value),
                  {.size = TextSize::heading});
    }
}

/// What the next batch is like, and from which one on the run changes.
void draw_then(const app::CardModel& card) {
    if (card.next_words.empty() && (!card.change || is_imminent(card)))
        return;
    panel("Then", [&] {
        if (!card.next_words.empty())
            paragraph(card.next_words, {.size = TextSize::heading});
        if (card.change && !is_imminent(card))
            draw_change(*card.change, card.units, fmt::format("From batch {} on", card.change->batch));
    });
}

/// The lot changes with the batch after this one: that is seen before the card is read.
void draw_imminent(const app::CardModel& card) {
    if (is_imminent(card))
        loud_panel(Role::mind, {}, [&] {
            draw_change(*card.change, card.units,
                        fmt::format("From the next batch, {}, on", card.change->batch));
        });
}

void draw_aims(const app::CardModel& card) {
    panel("Aims", [&] {
        draw_figure(card.dough_temperature, card.units, TextSize::key_figure);
        text("Fermentation", {.role = Role::quiet});
        paragraph(card.fermentation, {.size = TextSize::heading});
    });
    panel("Run", [&] {
        paragraph(fmt::format("{} on {}, {}", card.run_code, card.line, short_day(card.day)));
        paragraph("Sold in " + card.market);
    });
}

/// The cautions of the whole card, beneath the flour, where it is tipped.
void draw_cautions(const app::CardModel& card) {
    for (const auto& caution : card.cautions)
        if (!is_beside_oxidant(caution))
            draw_caution(caution);
}

void draw_figures(const app::CardModel& card) {
    if (card.figures.empty())
        return;
    panel("Blend and other ingredients", [&] {
        for (const auto& line : card.figures)
            draw_fact(line, card.units);
    });
}

} // namespace

std::string house_mass(const app::CardModel& card, double kg) {
    return kilograms(card.units.shown(Kilograms{kg}));
}

void draw_card(const app::CardModel& card, Body solution, Body beneath) {
    draw_imminent(card);
    const auto flour = [&] {
        draw_lots(card);
        draw_cautions(card);
    };
    const auto water = [&] {
        draw_water(card);
        draw_then(card);
        draw_water_notes(card);
        draw_figures(card);
    };
    const auto oxidant_and_aims = [&] {
        draw_oxidant(card, solution);
        draw_aims(card);
        beneath();
    };
    // Beneath this width they stand under each other and scroll as one.
    constexpr float three_beside = 52.5F;
    if (width_left().ems < three_beside) {
        flour();
        water();
        oxidant_and_aims();
        return;
    }
    panes({{.name = "Flour", .share = 0.15F, .least = 21.5_em, .body = flour},
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
