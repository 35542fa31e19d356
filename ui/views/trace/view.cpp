#include "ui/views/trace/view.h"

#include "app/acts/looking.h"
#include "app/acts/print_papers.h"
#include "app/acts/trace.h"
#include "core/typed_text.h"
#include "ui/views/common/words.h"
#include "ui/views/trace/parts.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <string>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

/// By place in TraceOf; each is the name of its field, too.
constexpr std::array<std::string_view, 4> begins{"Lot", "Product", "Run", "Customer"};
constexpr std::array<std::string_view, 4> pages{"Trace", "Dispatches", "Silos", "Stock"};

bool has_day(TraceOf asks) { return asks == TraceOf::product || asks == TraceOf::customer; }

void ask(TraceView& view, const app::Notice& notice, app::Intents& out) {
    view.looked_for.ask(notice);
    view.has_asked = true;
    out.emplace_back(app::ShowTrace{{static_cast<TraceOf>(view.asks), view.of, view.day}});
}

void fields(TraceView& view, Day today, const app::Notice& notice, app::Intents& out) {
    ui::form("What to trace", [&] {
        ui::flow([&] {
            ui::choice({.label = "Begin with", .width = 20_em}, begins, view.asks);
            const auto asks = static_cast<TraceOf>(view.asks);
            const auto label = begins[static_cast<std::size_t>(view.asks)];
            if (std::exchange(view.wants_focus, false))
                ui::focus(label);
            ui::text_field({.label = label,
                            .hint = asks == TraceOf::lot ? "number, or mill/number" : "",
                            .refusals = &view.looked_for.refusals,
                            .width = 12_em},
                           view.of);
            if (has_day(asks))
                ui::date_field(
                    {.label = "Day", .hint = "today", .refusals = &view.looked_for.refusals, .width = 8_em},
                    view.day, today);
            if (ui::button("Trace", {.kind = ui::ButtonKind::primary}))
                ask(view, notice, out);
        });
        ui::all_refusals(all_but(view.looked_for.refusals, {"Lot", "Product", "Run", "Customer", "Day"}));
    });
}

std::string lots_to_hold(const app::TraceModel& trace) {
    std::string codes;
    for (const auto& lot : trace.lots)
        if (lot.can_be_held)
            codes += (codes.empty() ? "" : ", ") + lot.lot.code;
    return codes;
}

void verdict(TraceView& view, const app::TracePage& page, app::Intents& out) {
    const auto& trace = *page.trace;
    ui::paragraph(page.summary, {.weight = ui::Weight::bold});
    const auto held = trace.to_hold().size();
    ui::flow([&] {
        if (ui::button("Put everything concerned on hold",
                       {.kind = ui::ButtonKind::stop, .blocked = held == 0 ? "none of it can be held" : ""}))
            view.holding.emplace();
        if (ui::button("Print the trace", {.kind = ui::ButtonKind::quiet}))
            out.emplace_back(app::PrintTrace{});
    });
}

void rules(const app::TraceModel& trace) {
    ui::part("How it was traced");
    for (const auto& rule : trace.rules)
        ui::hint(rule);
    ui::part("What the law asks");
    for (const auto& law : trace.law)
        ui::hint(law);
}

/// What it reaches, and what it does not, before it is done.
void ask_to_hold(TraceView& view, const app::TracePage& page, const app::Notice& notice, app::Intents& out) {
    if (!view.holding)
        return;
    auto& question = *view.holding;
    if (question.asked.is_done(notice)) {
        view.holding.reset();
        return;
    }
    if (!page.trace) { // it is being made anew, or it cannot be
        if (!view.looked_for.is_waiting())
            view.holding.reset();
        return;
    }
    if (notice.kind == app::Notice::Kind::failed)
        return; // the failure stands in front; the question comes back with what was typed
    const auto& trace = *page.trace;
    const auto chosen = ui::ask(
        {.title = "Put everything concerned on hold?",
         .harmless = "Hold nothing",
         .deed = "Put on hold",
         .deed_kind = ui::ButtonKind::stop},
        [&] {
            ui::paragraph("Lots: " + lots_to_hold(trace), {.weight = ui::Weight::bold});
            ui::paragraph(fmt::format("No hold reaches {} and {}: they are named when it is done.",
                                      counted(trace.batches.size(), "batch", "batches"),
                                      counted(trace.dispatches.size(), "dispatch", "dispatches")));
            ui::text_field({.label = "Reason", .refusals = &question.asked.refusals}, question.reason);
            ui::all_refusals(all_but(question.asked.refusals, {"Reason"}));
        });
    if (chosen == ui::Answer::harmless) {
        view.holding.reset();
    } else if (chosen == ui::Answer::deed) {
        view.looked_for = {}; // what comes now is the answer to this
        question.asked.ask(notice);
        out.emplace_back(app::HoldConcerned{question.reason});
    }
}

void trace(TraceView& view, const app::TracePage& page, const app::Notice& notice,
           const app::Overview& overview, app::Intents& out) {
    fields(view, overview.today, notice, out);
    if (page.trace) {
        verdict(view, page, out);
        draw_found(view, *page.trace);
        draw_balances(view, *page.trace);
    } else {
        ui::hint("Enter a lot to see where it went, or a product and its day to see what is in it.");
    }
    draw_drills(view, page, notice, out);
    if (page.trace)
        rules(*page.trace);
}

/// While another page than the trace is shown, stock and silos follow the book.
void follow_page(TraceView& view, const app::Notice& notice, app::Intents& out) {
    const bool needs = view.page != TraceView::trace_page;
    if (needs == view.has_stock)
        return;
    view.has_stock = needs;
    if (!needs) {
        out.emplace_back(app::PutAwayStock{});
        return;
    }
    view.stock_asked.ask(notice);
    out.emplace_back(app::ShowStock{view.stock_at});
}

} // namespace

void draw(TraceView& view, const app::TracePage& page, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out) {
    view.looked_for.take_answer(notice);
    view.stock_asked.take_answer(notice);
    view.draw_asked.take_answer(notice);
    view.dispatch.take_answer(page.logged, notice);
    view.rework.take_answer(page.logged, notice);
    view.silos.take_answer(page.logged, notice);
    view.care.take_answer(page.logged, notice);
    if (!view.has_asked) { // what was traced before is looked at again
        view.has_asked = true;
        if (trimmed(view.of).empty())
            out.emplace_back(app::ShowTrace{});
        else
            ask(view, notice, out);
    }
    follow_page(view, notice, out);
    ui::scroll_area("Trace page", {}, [&] {
        ui::pages({.label = "Show", .label_place = ui::LabelPlace::hidden}, pages, view.page);
        switch (view.page) {
        case TraceView::dispatches_page:
            draw_dispatches(view, page, overview.today, notice, out);
            break;
        case TraceView::silos_page:
            draw_silos(view, page, overview.today, notice, out);
            break;
        case TraceView::stock_page:
            draw_stock(view, page, notice, out);
            break;
        default:
            trace(view, page, notice, overview, out);
        }
    });
    draw(view.taking_back, notice, out);
    ask_to_hold(view, page, notice, out);
}

void leave(TraceView& view, app::Intents& out) {
    if (std::exchange(view.has_asked, false))
        out.emplace_back(app::ShowTrace{});
    if (std::exchange(view.has_stock, false))
        out.emplace_back(app::PutAwayStock{});
}

} // namespace mellowbin::views
