#include "ui/views/lots/past.h"

#include "app/acts/looking.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Align;
using ui::Role;

/// The table's columns, and by what each sorts; by the state nobody does.
constexpr std::array columns{
    ui::Column{.head = "Lot", .sample = "W24-118", .stretch = 1},
    ui::Column{.head = "Mill", .sample = "Harrow Mill", .stretch = 1, .gives_way = 4},
    ui::Column{.head = "Flour", .sample = "Strong white", .stretch = 1, .gives_way = 3},
    ui::Column{.head = "State", .sample = "✕ returned to the mill", .sortable = false},
    ui::Column{.head = "Since", .sample = "2026-11-25"},
    ui::Column{.head = "Delivered", .sample = "2026-11-25", .gives_way = 2},
    ui::Column{
        .head = "Received", .unit = "kg", .sample = "100 000.0", .align = Align::right, .gives_way = 1},
};
constexpr std::array orders{PastOrder::code,  PastOrder::mill,      PastOrder::flour,   PastOrder::ended,
                            PastOrder::ended, PastOrder::delivered, PastOrder::received};

void write_row(const PastLot& lot, ui::RowWriter& cells) {
    cells.cell(lot.code);
    cells.cell(lot.mill);
    cells.cell(lot.flour);
    cells.cell(lot.went_back                     ? app::returned_to_the_mill
               : lot.state == LotState::rejected ? std::string_view("rejected")
                                                 : std::string_view("used up"),
               role_of(lot.state));
    cells.cell(iso(lot.ended_at).substr(0, 10));
    cells.cell(iso(lot.delivered_on));
    cells.cell(kilograms(to_kilograms(lot.received).value()));
}

void ask(PastLotsView& view, const PastLotQuery& query, app::Intents& out) {
    if (view.has_asked && view.asked == query)
        return;
    view.asked = query;
    view.has_asked = true;
    out.emplace_back(app::ShowPastLots{query});
}

/// Which of them are shown, and the ways to the others.
void page_row(PastLotQuery& wanted, const app::PastLotsModel& model) {
    const auto shown = static_cast<int>(model.page.lots.size());
    const auto all = model.page.all;
    ui::text(shown == 0 ? std::string("none")
                        : fmt::format("{} to {} of {}", model.query.from + 1, model.query.from + shown, all),
             {.role = Role::quiet});
    if (ui::button("Page before", {.kind = ui::ButtonKind::quiet,
                                   .blocked = model.query.from == 0 ? "this is the first" : ""}))
        wanted.from = std::max(0, model.query.from - model.query.count);
    if (ui::button("Page after", {.kind = ui::ButtonKind::quiet,
                                  .blocked = model.query.from + shown >= all ? "this is the last" : ""}))
        wanted.from = model.query.from + model.query.count;
}

} // namespace

void leave(PastLotsView& view, app::Intents& out) {
    if (std::exchange(view.has_asked, false))
        out.emplace_back(app::ShowPastLots{});
}

ui::TableEvents draw(PastLotsView& view, const std::optional<app::PastLotsModel>& model, ui::Body first,
                     app::Intents& out) {
    PastLotQuery wanted = view.has_asked ? view.asked : PastLotQuery{};
    ui::flow([&] {
        first();
        const auto edited = ui::search_field({.label = "Show only",
                                              .hint = "lot or mill",
                                              .width = 18_em,
                                              .label_place = ui::LabelPlace::hidden,
                                              .enter = ui::Enter::entered},
                                             view.filter);
        view.wants_focus |= edited.entered;
        if (model)
            page_row(wanted, *model);
    });
    const auto& lots = model ? model->page.lots : std::vector<PastLot>{};
    const auto record = [&](std::size_t i) { return lots[i].id.number(); };
    const auto write = [&](std::size_t i, ui::RowWriter& cells) { write_row(lots[i], cells); };
    if (std::exchange(view.wants_focus, false))
        ui::focus("Past lots");
    const auto events =
        ui::table({.name = "Past lots",
                   .columns = columns,
                   .rows = lots.size(),
                   .record = record,
                   .write_row = write,
                   .when_empty = view.filter.empty()
                                     ? std::string_view("No lot was used up or rejected yet.")
                                     : std::string_view("No lot of the past has these words in its number "
                                                        "or its mill's name. Empty the field to see all."),
                   .density = ui::Density::close,
                   .typed = &view.filter},
                  view.table);
    if (view.filter != wanted.words) {
        wanted.words = view.filter;
        wanted.from = 0;
    }
    if (events.sort_changed) {
        const auto by = static_cast<std::size_t>(std::max(0, view.table.sort.column));
        wanted.order = view.table.sort.column < 0 ? PastOrder::ended : orders[by];
        wanted.is_descending = view.table.sort.column < 0 || view.table.sort.direction == ui::Direction::down;
        wanted.from = 0;
    }
    ask(view, wanted, out);
    return events;
}

} // namespace mellowbin::views
