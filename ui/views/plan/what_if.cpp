#include "ui/views/plan/what_if.h"

#include "app/acts/notice.h"
#include "app/acts/what_if.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/views/plan/lot_field.h"
#include "ui/views/plan/moves.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::ButtonKind;
using ui::Role;

enum Kind { run_moved, order, no_oxidant, lot_held };
constexpr std::array<std::string_view, 4> kinds{"A run moved", "An order", "No oxidant", "A lot on hold"};

/// Once supposed, the form is ready for the next.
void empty(WhatIf& w) {
    switch (w.asked_kind) {
    case run_moved:
        w.run = {};
        break;
    case order:
        w.kg.clear();
        w.arrives.clear();
        break;
    case lot_held:
        w.lot.clear();
        break;
    default:
        break;
    }
}

/// The fields follow the run that is chosen; what was typed for it stays.
void follow(WhatIf& w, const app::PlannedRun& run, const app::PlanModel& model) {
    if (w.run == run.id)
        return;
    w.run = run.id;
    const auto at = std::find(model.line_names.begin(), model.line_names.end(), line_of(run, model));
    w.line = at == model.line_names.end() ? -1 : static_cast<int>(at - model.line_names.begin());
    w.day = iso(run.day);
    w.place = std::to_string(place_of(run, model));
}

void run_fields(WhatIf& w, const app::PlannedRun* chosen, const app::PlanModel& model,
                const Refusals& refusals) {
    if (chosen == nullptr) {
        ui::hint("Drag a run over the board, or choose one there and type where it should go.");
        return;
    }
    follow(w, *chosen, model);
    ui::paragraph(words_for(*chosen), {.weight = ui::Weight::bold});
    ui::choice({.label = "Line", .refusals = &refusals}, model.line_names, w.line);
    ui::flow([&] {
        ui::date_field({.label = "Day", .refusals = &refusals, .width = 8_em}, w.day, model.today);
        ui::number_field({.label = "Sequence", .refusals = &refusals, .width = 8_em}, w.place);
    });
}

void order_fields(WhatIf& w, const app::PlanModel& model, const Refusals& refusals) {
    name_choice({.label = "Flour", .refusals = &refusals}, model.flours, w.flour);
    ui::flow([&] {
        ui::number_field({.label = "Weight", .unit = "kg", .refusals = &refusals, .width = 7_em}, w.kg);
        ui::date_field({.label = "Arrives", .refusals = &refusals, .width = 8_em}, w.arrives, model.today);
    });
}

void fields(WhatIf& w, const app::PlannedRun* chosen, const app::PlanModel& model,
            const app::LotsModel& lots) {
    static const Refusals none;
    const auto& refusals = w.asked_kind == w.kind ? w.asked.refusals : none;
    switch (w.kind) {
    case run_moved:
        run_fields(w, chosen, model, refusals);
        break;
    case order:
        order_fields(w, model, refusals);
        break;
    case no_oxidant:
        name_choice({.label = "Market", .refusals = &refusals}, model.markets, w.market);
        break;
    default:
        lot_field({.label = "Lot", .refusals = &refusals}, lots, w.lot);
    }
    ui::all_refusals(
        all_but(refusals, {"Line", "Day", "Sequence", "Flour", "Weight", "Arrives", "Market", "Lot"}));
}

std::optional<app::Intent> intent_of(const WhatIf& w, const app::PlanModel& model,
                                     const app::LotsModel& lots) {
    switch (w.kind) {
    case run_moved: {
        const bool has_line = w.line >= 0 && w.line < static_cast<int>(model.line_names.size());
        return app::SupposeRunMoved{
            w.run, has_line ? model.line_names[static_cast<std::size_t>(w.line)] : std::string(), w.day,
            w.place};
    }
    case order:
        return app::SupposeOrder{w.flour, w.kg, w.arrives};
    case no_oxidant:
        return app::SupposeNoOxidant{w.market};
    default:
        if (const auto* lot = lot_in_stock(lots, w.lot))
            return app::SupposeLotHeld{lot->id};
        return {};
    }
}

void suppose(WhatIf& w, const app::PlanModel& model, const app::LotsModel& lots, const app::Notice& notice,
             app::Intents& out) {
    w.asked_kind = w.kind;
    if (auto intent = intent_of(w, model, lots)) {
        w.asked.ask(notice);
        out.push_back(std::move(*intent));
    } else {
        w.asked.refusals = {no_such_lot("Lot", w.lot)};
    }
}

void draw_list(const app::PlanModel& model, app::Intents& out) {
    if (model.suppositions.empty())
        ui::hint("Nothing is supposed yet.");
    for (std::size_t i = 0; i < model.suppositions.size(); ++i)
        ui::scope(static_cast<std::int64_t>(i), [&] {
            ui::paragraph(fmt::format("{}. {}", i + 1, model.suppositions[i]));
            if (ui::button(fmt::format("Remove {}", i + 1), {.kind = ButtonKind::quiet}))
                out.emplace_back(app::DropSupposition{static_cast<int>(i)});
        });
}

void draw_form(WhatIf& w, const app::PlannedRun* chosen, const app::PlanModel& model,
               const app::LotsModel& lots, const app::Notice& notice, app::Intents& out) {
    ui::form("Suppose", [&] {
        ui::choice({.label = "Suppose"}, kinds, w.kind);
        fields(w, chosen, model, lots);
        const bool can_ask = w.kind != run_moved || chosen != nullptr;
        if (can_ask && ui::button("Suppose it", {.kind = ButtonKind::primary}))
            suppose(w, model, lots, notice, out);
    });
}

} // namespace

void draw(WhatIf& w, const app::PlannedRun* chosen, const app::PlanModel& model, const app::LotsModel& lots,
          const app::Notice& notice, app::Intents& out) {
    if (w.asked.is_done(notice))
        empty(w);
    ui::loud_panel(Role::model, "What if", [&] {
        ui::paragraph("Nothing here touches the book.", {.role = Role::model, .weight = ui::Weight::bold});
        draw_list(model, out);
        const bool is_empty = model.suppositions.empty();
        if (!model.is_planning &&
            ui::button("Plan with these", {.blocked = is_empty ? "Suppose something first" : ""}))
            out.emplace_back(app::PlanSuppositions{});
        ui::rule();
        draw_form(w, chosen, model, lots, notice, out);
    });
}

} // namespace mellowbin::views
