#include "app/acts/begun.h"

#include "ui/views/common/keep.h"
#include "ui/views/common/words.h"
#include "ui/views/intake/delivery_side.h"
#include "ui/views/intake/kept.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using ui::Role;

constexpr std::size_t most_shown = 1; // what is typed here comes first
constexpr std::string_view in_the_way = "Put aside what is typed first";

/// "3 lots of Harrow Mill, 2 of them whole"
std::string how_far(const IntakeView& view) {
    const auto lots = view.delivery.filled().size();
    const auto& mill = view.delivery.at_hand().draft.mill;
    auto words = lots == 0 ? std::string("a delivery") : counted(lots, "lot", "lots");
    if (!mill.empty())
        words += " of " + mill;
    if (const auto whole = whole_lots(view).size(); whole > 0 && whole < lots)
        words += fmt::format(", {} of them whole", whole);
    return words;
}

bool is_here(const IntakeView& view, const app::BegunRow& row) {
    return view.form.begun == BegunHold{row.id, row.hold};
}

void begun_row(const IntakeView& view, const app::BegunRow& row, app::Intents& out) {
    const std::string_view blocked = is_begun(view) ? in_the_way : std::string_view();
    ui::paragraph(row.words, {.weight = ui::Weight::bold});
    if (!row.holder.empty())
        ui::hint(row.holder);
    ui::flow([&] {
        if (row.holder.empty()) {
            if (ui::button("Go on with it", {.blocked = blocked}))
                out.emplace_back(app::TakeOverDelivery{row.id});
            if (ui::button("Throw away", {.kind = ui::ButtonKind::quiet}))
                out.emplace_back(app::ThrowBegunAway{{row.id, row.hold}});
        } else if (ui::button("Take it over all the same",
                              {.kind = ui::ButtonKind::quiet, .blocked = blocked})) {
            out.emplace_back(app::TakeOverDelivery{row.id, TakeFrom::whoever_has_it});
        }
    });
}

} // namespace

void draw_begun(IntakeView& view, const app::IntakeModel& model, app::Intents& out) {
    std::vector<const app::BegunRow*> rows;
    for (const auto& row : model.begun)
        if (!is_here(view, row))
            rows.push_back(&row);
    if (rows.empty())
        return;
    ui::panel("", [&] {
        const auto shown = view.shows_all_begun ? rows.size() : std::min(rows.size(), most_shown);
        for (std::size_t i = 0; i < shown; ++i)
            ui::scope(rows[i]->id.number(), [&] { begun_row(view, *rows[i], out); });
        if (shown < rows.size())
            view.shows_all_begun = ui::button(fmt::format("{} more begun", rows.size() - shown),
                                              {.kind = ui::ButtonKind::quiet});
    });
}

void put_aside(IntakeView& view, const app::Notice& notice, app::Intents& out) {
    app::PutDeliveryAside act;
    KeptWriter writer(act.text);
    keep_begun(writer, view);
    act.how_far = how_far(view);
    act.from = view.form.begun;
    view.putting_aside.ask(notice);
    out.emplace_back(std::move(act));
}

void take_over_begun(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                     app::Intents& out) {
    view.putting_aside.take_answer(notice);
    if (model.put_aside != view.put_aside_seen) {
        view.put_aside_seen = model.put_aside;
        empty(view);
    }
    if (model.taken_over.count == view.taken_over_seen)
        return;
    view.taken_over_seen = model.taken_over.count;
    KeptReader reader(model.taken_over.text);
    take_up(reader, view, out);
    view.form.begun = model.taken_over.hold;
}

void throw_away_if_empty(IntakeView& view, app::Intents& out) {
    if (!view.form.begun.is_held() || !view.delivery.filled().empty())
        return;
    out.emplace_back(app::ThrowBegunAway{view.form.begun});
    view.form = {};
}

} // namespace mellowbin::views
