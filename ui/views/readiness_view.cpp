#include "ui/views/readiness_view.h"

#include "ui/views/lot_band.h"
#include "ui/views/plan_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array<std::string_view, 3> orders{"Ready first", "Youngest", "Flour"};

/// The day looked at may have been changed elsewhere; the line and the field follow it.
void follow(ReadinessView& view, const app::ReadinessModel& model) {
    if (view.shown_as_of == model.as_of)
        return;
    if (!view.shown_as_of)
        view.axis.from = day_number(model.today) - 14;
    view.shown_as_of = model.as_of;
    view.axis.today = day_number(model.as_of);
    view.looked_at = iso(model.as_of);
    view.refusals.clear();
}

std::string_view words_when_empty(const app::ReadinessModel& model) {
    return model.rows.empty() ? "No flour in stock yet. Take in a delivery on Intake."
                              : "No lot holds these words. Empty the filter.";
}

void look_at(const app::ReadinessModel& model, Day day, app::Intents& out) {
    if (day != model.as_of)
        out.emplace_back(app::ShowAsOf{day});
}

void draw_controls(ReadinessView& view, const app::ReadinessModel& model, app::Intents& out) {
    flow([&] {
        search_field({.label = "Filter", .hint = "lot, flour or state", .width = 14_em}, view.wish.filter);
        int order = static_cast<int>(view.wish.order);
        if (choice({.label = "Order"}, orders, order))
            view.wish.order = static_cast<LotOrder>(order);
        if (date_field({.label = "Look at day", .refusals = &view.refusals, .width = 8_em}, view.looked_at,
                       model.today)) {
            const auto day = read_day("Look at day", view.looked_at);
            view.refusals = day ? Refusals{} : day.refusals();
            if (day && *day)
                look_at(model, **day, out);
        }
        if (model.as_of != model.today && button("Back to today"))
            look_at(model, model.today, out);
        tick("Show as table", view.as_table);
    });
}

void draw_chart(ReadinessView& view, const app::ReadinessModel& model,
                const std::vector<std::uint32_t>& shown, Length height, app::Intents& out) {
    LotBand drawn;
    const auto row_at = [&](std::size_t i) -> const app::ReadinessRow& { return model.rows[shown[i]]; };
    const auto record = [&](std::size_t i) { return row_at(i).id.number(); };
    const auto fill_row = [&](std::size_t i, BandRow& band) { drawn.fill(row_at(i), model, band); };
    const auto events = band_chart({.name = "Readiness",
                                    .rows = shown.size(),
                                    .record = record,
                                    .fill_row = fill_row,
                                    .real_today = day_number(model.today),
                                    .when_empty = words_when_empty(model),
                                    .height = height},
                                   view.axis);
    if (events.today_dropped)
        look_at(model, day_of(view.axis.today), out);
    if (events.selected && view.axis.selected) {
        view.table.selected = view.axis.selected;
        view.chosen = LotId{*view.axis.selected};
        out.emplace_back(app::OpenLot{*view.chosen});
    }
    if (events.tick)
        out.emplace_back(app::OpenRun{RunId{*events.tick}});
}

void draw_table(ReadinessView& view, const app::ReadinessModel& model,
                const std::vector<std::uint32_t>& shown, Length height, app::Intents& out) {
    static constexpr std::array columns{
        Column{.head = "Lot", .sample = "W24-118-0001"},
        Column{.head = "Flour", .sample = "Strong white", .stretch = 1},
        Column{.head = "Stock", .unit = "kg", .sample = "120 000.5", .align = Align::right},
        Column{.head = "State", .sample = "Awaiting judgement, past its best"},
        Column{.head = "Mature", .unit = "%", .sample = "100", .align = Align::right},
        Column{.head = "Ready on", .sample = "Wed 25 Nov"},
        Column{.head = "Best until", .sample = "Wed 25 Nov"},
    };
    const auto row_at = [&](std::size_t i) -> const app::ReadinessRow& { return model.rows[shown[i]]; };
    const auto record = [&](std::size_t i) { return row_at(i).id.number(); };
    const auto write_row = [&](std::size_t i, RowWriter& cells) {
        const auto& row = row_at(i);
        cells.cell(row.code);
        cells.cell(row.flour);
        cells.cell(kilograms(row.stock_kg));
        cells.cell(state_words(row), state_role(row));
        cells.cell(fmt::format("{:.0f}", row.probability_mature * 100));
        cells.cell(day_or_dash(row.ready_at_confidence));
        cells.cell(day_or_dash(row.past_best_at_confidence));
    };
    const auto events = table({.name = "Readiness",
                               .columns = columns,
                               .rows = shown.size(),
                               .record = record,
                               .write_row = write_row,
                               .when_empty = words_when_empty(model),
                               .density = Density::close,
                               .height = height},
                              view.table);
    if (events.selected && view.table.selected) {
        view.axis.selected = view.table.selected;
        view.chosen = LotId{*view.table.selected};
        out.emplace_back(app::OpenLot{*view.chosen});
    }
}

void draw_chosen(const ReadinessView& view, const app::ReadinessModel& model) {
    const auto row = std::find_if(model.rows.begin(), model.rows.end(),
                                  [&](const app::ReadinessRow& r) { return r.id == view.chosen; });
    if (!view.chosen || row == model.rows.end()) {
        hint("Choose a lot to read about it. Drag the day's line, or type a day, to look ahead.");
        return;
    }
    text(fmt::format("{}: {}, {} kg in stock", row->code, row->flour, kilograms(row->stock_kg)),
         {.weight = Weight::bold});
    status(state_role(*row),
           fmt::format("{}. {}. Mature on {} with a probability of {}.", as_sentence(state_words(*row)),
                       as_sentence(row->words), short_day(model.as_of), percent(row->probability_mature)));
    std::string wanted;
    for (const auto& tick : model.ticks)
        if (tick.lot == row->id)
            wanted += fmt::format("{}{}, {}", wanted.empty() ? "Wanted by " : "; ", tick.words,
                                  short_day(tick.day));
    if (!wanted.empty())
        hint(wanted + ".");
}

} // namespace

void draw(ReadinessView& view, const app::ReadinessModel& model, const app::Notice&, const app::Overview&,
          app::Intents& out) {
    follow(view, model);
    draw_controls(view, model, out);
    view.wish.sort = view.as_table ? view.table.sort : Sort{};
    const auto& shown = view.shown.of(model, view.wish);
    // What stands beneath is of about this height; a wordy lot makes the place scroll.
    const float beneath = view.as_table ? 6.5F : 8.5F;
    const Length height{std::max(14.0F, height_left().ems - beneath)};
    if (view.as_table) {
        draw_table(view, model, shown, height, out);
    } else {
        draw_chart(view, model, shown, height, out);
        band_legend();
    }
    draw_chosen(view, model);
}

} // namespace mellowbin::views
