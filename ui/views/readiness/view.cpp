#include "ui/views/readiness/view.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "app/models/readiness.h"
#include "ui/views/common/day_words.h"
#include "ui/views/readiness/band.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array<std::string_view, 3> orders{"By flour", "Ready first", "Youngest"};

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

void choose(ReadinessView& view, LotId lot) {
    view.chosen = lot;
    view.axis.selected = view.table.selected = lot.number();
}

/// A lot opened on another screen is chosen here, too.
void follow_opened(ReadinessView& view, const app::ReadinessModel& model) {
    const auto opened = model.opened ? model.opened->lot : LotId{};
    if (opened == view.opened)
        return;
    view.opened = opened;
    if (!opened.is_known())
        return;
    view.shows_story = true;
    choose(view, opened);
    view.axis.show_selected = view.table.show_selected = true;
}

void open(ReadinessView& view, std::int64_t lot, app::Intents& out) {
    choose(view, LotId{lot});
    view.shows_story = view.is_chosen_in_list = true;
    out.emplace_back(app::OpenLot{LotId{lot}});
}

/// Nothing stays selected, so that the same lot can be opened again.
void close_story(ReadinessView& view) {
    view.shows_story = false;
    view.is_chosen_in_list = true;
    view.chosen.reset();
    view.axis.selected.reset();
    view.table.selected.reset();
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
        search_field({.label = "Filter", .hint = "lot, flour, state, advice", .width = 14_em},
                     view.wish.filter);
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

/// The lots under their flours, or in one order.
class Lines {
public:
    Lines(ReadinessView& view, const app::ReadinessModel& model, const std::vector<std::uint32_t>& shown)
        : groups_(view.groups), model_(model), shown_(shown),
          by_flour_(view.wish.order == LotOrder::by_flour) {
        if (by_flour_)
            groups_.follow(model, shown, view.shown.mark());
    }
    [[nodiscard]] std::size_t count() const { return by_flour_ ? groups_.lines().size() : shown_.size(); }
    /// Of a lot its number; of a flour's head a negative one.
    [[nodiscard]] std::int64_t record(std::size_t i) const {
        const auto line = at(i);
        return line.is_group ? -1 - static_cast<std::int64_t>(line.at) : model_.rows[line.at].id.number();
    }
    void fill(std::size_t i, LotBand& drawn, BandRow& band) const {
        const auto line = at(i);
        if (line.is_group)
            drawn.fill(groups_.group(line.at), band);
        else
            drawn.fill(model_.rows[line.at], model_, band);
    }
    void fold(std::int64_t record) { groups_.fold(static_cast<std::uint32_t>(-1 - record)); }

private:
    [[nodiscard]] ReadinessLine at(std::size_t i) const {
        return by_flour_ ? groups_.lines()[i] : ReadinessLine{false, shown_[i]};
    }
    FlourGroups& groups_;
    const app::ReadinessModel& model_;
    const std::vector<std::uint32_t>& shown_;
    bool by_flour_;
};

void draw_chart(ReadinessView& view, const app::ReadinessModel& model,
                const std::vector<std::uint32_t>& shown, Length height, app::Intents& out) {
    LotBand drawn;
    Lines lines(view, model, shown);
    const auto record = [&](std::size_t i) { return lines.record(i); };
    const auto fill_row = [&](std::size_t i, BandRow& band) { lines.fill(i, drawn, band); };
    const auto events = band_chart({.name = "Readiness",
                                    .rows = lines.count(),
                                    .record = record,
                                    .fill_row = fill_row,
                                    .label_lines = 1,
                                    .label_head = "Lot",
                                    .amount_head = "kg",
                                    .state_head = "State",
                                    .real_today = day_number(model.today),
                                    .when_empty = words_when_empty(model),
                                    .height = height},
                                   view.axis);
    if (events.today_dropped)
        look_at(model, day_of(view.axis.today), out);
    const auto selected = view.axis.selected;
    if (events.fold)
        lines.fold(*events.fold);
    else if (selected && *selected < 0 && events.opened)
        lines.fold(*selected);
    else if (selected && *selected >= 0 && (events.selected || events.opened))
        open(view, *selected, out);
    if (events.tick)
        out.emplace_back(app::OpenRun{RunId{*events.tick}});
}

void draw_table(ReadinessView& view, const app::ReadinessModel& model,
                const std::vector<std::uint32_t>& shown, Length height, app::Intents& out) {
    static constexpr std::array columns{
        Column{.head = "Lot", .sample = "W24-118-0001"},
        Column{.head = "Advice", .sample = "▲ use first"},
        Column{.head = "Flour", .sample = "Strong white", .stretch = 1},
        Column{.head = "Stock", .unit = "kg", .sample = "120 000.5", .align = Align::right},
        Column{.head = "State", .sample = "In quarantine, past its best"},
        Column{.head = "Mature", .unit = "%", .sample = "100", .align = Align::right},
        Column{.head = "Ready on", .sample = "Wed 25 Nov"},
        Column{.head = "Best until", .sample = "Wed 25 Nov"},
        Column{.head = "Results", .sample = "▲ 2, check", .align = Align::right},
        Column{.head = "Measured", .unit = "%", .sample = "100", .align = Align::right},
    };
    const auto row_at = [&](std::size_t i) -> const app::ReadinessRow& { return model.rows[shown[i]]; };
    const auto record = [&](std::size_t i) { return row_at(i).id.number(); };
    const auto write_row = [&](std::size_t i, RowWriter& cells) {
        const auto& row = row_at(i);
        cells.cell(row.code);
        cells.cell(advice_words(row.advice), role_of(row.advice));
        cells.cell(row.flour);
        cells.cell(kilograms(row.stock_kg));
        cells.cell(state_words(row), state_role(row));
        cells.cell(fmt::format("{:.0f}", row.probability_mature * 100));
        cells.cell(day_or_dash(row.ready_at_confidence));
        cells.cell(day_or_dash(row.past_best_at_confidence));
        cells.cell(fmt::format("{}{}", row.tests, row.asks_check ? ", check" : ""),
                   row.asks_check ? Role::mind : Role::ink);
        cells.cell(fmt::format("{:.0f}", row.measured * 100));
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
    if ((events.selected || events.opened) && view.table.selected)
        open(view, *view.table.selected, out);
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

/// The lots, and under them what the legend and the chosen lot's words take.
void draw_lots(ReadinessView& view, const app::ReadinessModel& model, Length beneath, app::Intents& out) {
    view.wish.sort = view.as_table ? view.table.sort : Sort{};
    const auto& shown = view.shown.of(model, view.wish);
    const Length height{std::max(14.0F, height_left().ems - beneath.ems)};
    if (view.as_table) {
        draw_table(view, model, shown, height, out);
        return;
    }
    draw_chart(view, model, shown, height, out);
    band_legend();
}

/// The lots move when a story opens or closes: the list keeps its place and its focus.
void move_lots(ReadinessView& view, bool is_beside) {
    const bool moves = std::exchange(view.was_beside, is_beside) != is_beside;
    const bool is_by_person = std::exchange(view.is_chosen_in_list, view.is_chosen_in_list && !moves);
    if (!moves)
        return;
    view.axis.show_selected = view.table.show_selected = true;
    if (is_by_person)
        focus("Readiness");
}

void draw_beside_story(ReadinessView& view, const app::ReadinessModel& model, const app::Notice& notice,
                       app::Intents& out) {
    constexpr Length least_lots = 32_em, least_story = 32_em;
    const bool are_side_by_side = width_left().ems > least_lots.ems + least_story.ems + 2;
    if (are_side_by_side)
        draw_controls(view, model, out);
    const auto lots = [&] {
        if (!are_side_by_side)
            draw_controls(view, model, out);
        draw_lots(view, model, view.as_table ? 0.5_em : 6_em, out);
    };
    const auto story = [&] {
        if (draw(view.story, *model.opened, model, notice, out))
            close_story(view);
    };
    panes({{"Bands", 0.5F, least_lots, lots}, {"Story", 0.5F, least_story, story}});
}

} // namespace

void draw(ReadinessView& view, const app::ReadinessModel& model, const app::Notice& notice,
          const app::Overview&, app::Intents& out) {
    follow(view, model);
    follow_opened(view, model);
    const bool is_beside = model.opened && view.shows_story && model.opened->lot == view.chosen;
    move_lots(view, is_beside);
    if (is_beside) {
        draw_beside_story(view, model, notice, out);
        return;
    }
    draw_controls(view, model, out);
    // What stands beneath is of about this height; a wordy lot makes the place scroll.
    const Length words = view.chosen ? 5_em : 2_em;
    draw_lots(view, model, view.as_table ? Length{words.ems + 1} : Length{words.ems + 3}, out);
    draw_chosen(view, model);
}

} // namespace mellowbin::views
