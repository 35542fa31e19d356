#include "ui/views/mixer/card.h"

#include "app/acts/draws.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/figures.h"
#include "ui/views/mixer/cautions.h"
#include "ui/views/mixer/verdict.h"

#include <fmt/format.h>

#include <deque>
#include <string_view>
#include <vector>

namespace mellowbin::views {

using namespace ui;

namespace {

using Ruling = app::CardVerdict::Ruling;
using Box = WeighedRow::Box;
using Rank = WeighedRow::Rank;

constexpr std::string_view do_not_weigh = "do not weigh";

/// The rows of the table; the words live as long as it does.
class Weighing {
public:
    explicit Weighing(const app::CardModel& card) : card_(card) {
        for (const auto& lot : card.lots)
            add(lot);
        add_water();
        if (card.ice.value.value_or(1) > 0)
            add(card.ice, "Ice");
        add_oxidant();
        for (const auto& ingredient : card.ingredients)
            add(ingredient, ingredient.label);
        for (auto& row : rows_)
            row.waits = card.verdict.ruling == Ruling::do_not_mix;
    }
    [[nodiscard]] const std::vector<WeighedRow>& rows() const { return rows_; }

private:
    std::string_view kept(std::string words) { return words_.emplace_back(std::move(words)); }
    std::string_view mass(double kg) { return kept(house_mass(card_, kg)); }
    std::string_view unit() { return kept(std::string(card_.units.mass())); }

    void add(const app::CardLot& lot);
    void add_water();
    void add_oxidant();
    void add(const app::Figure& figure, std::string_view label, std::string_view note = {});
    /// The number and its unit, or the words that stand in its place.
    void put(const app::Figure& figure, WeighedRow& row) {
        const auto read = app::shown(figure, card_.units);
        row.unit = kept(read.unit);
        (figure.value ? row.number : row.withheld) = kept(read.value);
    }

    const app::CardModel& card_;
    std::deque<std::string> words_;
    std::vector<WeighedRow> rows_;
};

void Weighing::add(const app::CardLot& lot) {
    WeighedRow row;
    row.label = lot.code;
    row.rank = Rank::lot;
    const auto all = fmt::format("{} {} · ", mass(lot.kg), unit());
    row.note = kept((lot.bags > 0 && !lot.is_withheld ? all : std::string()) + lot.place);
    if (lot.is_withheld) {
        row.withheld = do_not_weigh;
        row.box = Box::stopped;
        row.tint = Role::stop;
        rows_.push_back(row);
        return;
    }
    if (lot.is_scanned)
        row.box = Box::done;
    else if (card_.needs_scan)
        row.box = Box::open;
    row.state = lot.is_scanned ? "scanned" : card_.needs_scan ? "not scanned" : std::string_view();
    row.state_role = lot.is_scanned ? Role::good : Role::mind;
    if (row.box == Box::open)
        row.tint = Role::mind;
    if (lot.bags > 0) {
        row.counted = kept(std::to_string(lot.bags));
        row.counted_unit = lot.bags == 1 ? "bag" : "bags";
        row.is_more_weighed = lot.loose_kg > 0;
    }
    if (lot.bags == 0 || lot.loose_kg > 0) {
        row.number = mass(lot.bags == 0 ? lot.kg : lot.loose_kg);
        row.unit = unit();
    }
    rows_.push_back(row);
}

void Weighing::add_water() {
    WeighedRow row;
    row.label = "Water";
    row.rank = Rank::water;
    put(card_.water, row);
    const auto temperature = app::shown(card_.water_temperature, card_.units);
    if (card_.water.value) {
        row.beside = kept(temperature.value);
        row.beside_unit = kept(temperature.unit);
    }
    rows_.push_back(row);
}

void Weighing::add(const app::Figure& figure, std::string_view label, std::string_view note) {
    WeighedRow row;
    row.label = label;
    row.note = note;
    put(figure, row);
    rows_.push_back(row);
}

void Weighing::add_oxidant() {
    if (card_.oxidant.label.empty()) {
        rows_.push_back({.label = "Oxidant", .number = "none"});
        return;
    }
    std::string_view note;
    if (card_.oxidant.unit == "mL" && !card_.solution.empty())
        note = kept("solution of " + card_.solution.substr(0, card_.solution.find(',')));
    else if (!card_.oxidant.value)
        note = card_.oxidant.note; // why it is withheld
    else if (*card_.oxidant.value <= 0)
        note = "none needed";
    add(card_.oxidant, card_.oxidant.label, note);
    if (card_.solution_is_past) {
        rows_.back().note = {};
        rows_.back().state = "solution past its time";
        rows_.back().state_role = Role::stop;
    }
}

void draw_change(const app::CardChange& change, const HouseUnits& house, std::string_view from) {
    paragraph(fmt::format("{} {}: {}", sign(Role::mind), from, change.words),
              {.size = TextSize::mixer_note, .role = Role::mind});
    for (const auto& [then, now] : change.lines) {
        const auto [value, unit] = shown(then, house);
        paragraph(fmt::format("{} {} {}, {} now", then.label, value, unit, shown(now, house).value),
                  {.size = TextSize::mixer_note});
    }
}

void draw_notes(const app::CardModel& card) {
    const auto told = [&](std::string_view label, const app::Figure& figure) {
        if (!figure.note.empty())
            paragraph(fmt::format("{}: {}", label, figure.note));
    };
    panel("Where the figures come from", [&] {
        told("Water", card.water);
        if (!card.water_range_words.empty())
            paragraph(card.water_range_words + ".", {.role = Role::quiet});
        told("Water temperature", card.water_temperature);
        told("Ice", card.ice);
        told(card.oxidant.label, card.oxidant);
        if (!card.solution.empty())
            paragraph("Solution: " + card.solution);
    });
}

/// Other places where the lot lies: the batch is drawn from the one that is pressed.
void choose_place(const app::CardModel& card, const app::CardLot& lot, app::Intents& out) {
    if (lot.places.size() < 2)
        return;
    scope(lot.lot.number(), [&] {
        flow([&] {
            for (const auto& place : lot.places)
                if (!place.is_first && button(fmt::format("Draw {} from {} ({} {})", lot.code, place.name,
                                                          house_mass(card, place.kg), card.units.mass()),
                                              {.kind = ButtonKind::quiet}))
                    out.emplace_back(app::DrawFrom{card.run, lot.lot, place.name});
        });
    });
}

void draw_lots(const app::CardModel& card, app::Intents& out) {
    panel(fmt::format("Flour {} {}", house_mass(card, card.flour_kg), card.units.mass()), [&] {
        for (const auto& lot : card.lots) {
            paragraph(fmt::format("{}: {}{}{}", lot.code, lot.place, lot.readiness.empty() ? "" : " · ",
                                  lot.readiness));
            if (!lot.drawn.empty())
                status(Role::mind, fmt::format("{} {}", lot.place, lot.drawn));
            choose_place(card, lot, out);
        }
        hint("Scan or type the name of a place where bags are scanned to draw from there.");
    });
}

/// Numbers of the lots that a stop is about; where there is no card its refusals name them.
std::vector<std::string> stopped_lots(const app::CardModel& card) {
    constexpr std::string_view lot_field = "Lot ";
    std::vector<std::string> codes;
    for (const auto& lot : card.lots)
        if (lot.is_withheld)
            codes.push_back(lot.code);
    for (const auto& refusal : card.refusals)
        if (refusal.field.starts_with(lot_field))
            codes.push_back(refusal.field.substr(lot_field.size()));
    return codes;
}

} // namespace

std::string house_mass(const app::CardModel& card, double kg) {
    return kilograms(card.units.shown(Kilograms{kg}));
}

void draw_weighing(const app::CardModel& card) { weighing_table(Weighing(card).rows()); }

void draw_aims(const app::CardModel& card) {
    panel({}, [&] {
        const auto [value, unit] = shown(card.dough_temperature, card.units);
        aim({.label = "Dough", .number = value, .unit = unit, .size = TextSize::mixer_figure});
        if (!card.mixing.empty())
            aim({.label = "Mix", .number = card.mixing, .unit = {}});
        aim({.label = "Bulk", .number = card.fermentation, .unit = {}});
        if (!card.fermentation_why.empty())
            paragraph(card.fermentation_why, {.size = TextSize::mixer_note});
    });
}

bool is_imminent(const app::CardModel& card) { return card.change && card.change->batch == card.batch + 1; }

void draw_then(const app::CardModel& card) {
    if (card.next_words.empty() && !card.change)
        return;
    const auto body = [&] {
        if (!card.next_words.empty())
            paragraph(card.next_words, {.size = TextSize::mixer_note});
        if (card.change)
            draw_change(*card.change, card.units,
                        is_imminent(card) ? fmt::format("From the next batch, {}, on", card.change->batch)
                                          : fmt::format("From batch {} on", card.change->batch));
    };
    if (is_imminent(card))
        loud_panel(Role::mind, {}, body);
    else
        panel({}, body);
}

void draw_aside(const app::CardModel& card) {
    if (card.verdict.ruling != Ruling::do_not_mix)
        return;
    panel({}, [&] {
        paragraph("Leave the bowl as it is", {.size = TextSize::mixer_name, .weight = Weight::bold});
        for (const auto& code : stopped_lots(card))
            for (const auto& batch : card.logged)
                if (!batch.is_countered && batch.words.find(code) != std::string::npos)
                    paragraph(fmt::format("Batch {} holds {} too: set that dough aside.", batch.number, code),
                              {.size = TextSize::mixer_note});
    });
}

void draw_no_card(const app::CardModel& card) {
    loud_panel(Role::stop, {}, [&] {
        paragraph(fmt::format("{} No card: do not mix this run", sign(Role::stop)),
                  {.size = TextSize::mixer_text, .role = Role::stop});
        for (const auto& refusal : card.refusals) {
            gap();
            paragraph(refusal.field.empty() ? refusal.what : refusal.field + ": " + refusal.what,
                      {.size = TextSize::mixer_amount});
            if (!refusal.remedy.empty())
                paragraph(refusal.remedy, {.size = TextSize::mixer_name, .role = Role::quiet});
        }
    });
    draw_cautions(card);
}

void draw_why(const app::CardModel& card, app::Intents& out) {
    scroll_area("Why", {}, [&] {
        draw_reasons(card.verdict);
        draw_lots(card, out);
        draw_notes(card);
        if (!card.figures.empty() || !card.ingredients.empty())
            panel("Blend and other ingredients", [&] {
                for (const auto* lines : {&card.ingredients, &card.figures})
                    for (const auto& line : *lines)
                        draw_fact(line, card.units);
            });
        draw_cautions(card);
        panel("Run", [&] {
            paragraph(fmt::format("{} on {}, {}", card.run_code, card.line, short_day(card.day)));
            paragraph("Sold in " + card.market);
        });
    });
}

} // namespace mellowbin::views
