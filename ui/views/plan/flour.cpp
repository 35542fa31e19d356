#include "ui/views/plan/flour.h"

#include "app/acts/notice.h"
#include "app/acts/supply.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/plan_supply.h"
#include "app/plan/order_advice.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/views/plan/lot_field.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::ButtonKind;
using ui::Role;

constexpr std::string_view order_number = "Order number";
constexpr std::string_view nobodys = "Nobody: kept back from every plan";

void draw_order(const app::OrderAdvice& order, ExpectForm& expect) {
    ui::paragraph(fmt::format("{} kg {}", kilograms(order.kg), order.flour), {.weight = ui::Weight::bold});
    if (order.order_by)
        ui::paragraph(fmt::format("Here by {}: then it matures in time.", short_day(*order.order_by)));
    else
        ui::status(Role::mind, "It is too late for it to mature in time.");
    if (!order.for_runs.empty())
        ui::paragraph("For " + order.for_runs);
    if (!order.if_later.empty())
        ui::hint(order.if_later);
    if (ui::button("It is ordered", {.tip = "Fills the form of a delivery to come"})) {
        expect.is_open = true;
        expect.flour = order.flour;
        expect.kg = fmt::format("{:.0f}", std::ceil(order.kg)); // as a person types it
        expect.arrives = order.order_by ? iso(*order.order_by) : "";
    }
    ui::gap();
}

void draw_orders(const app::PlanModel& model, ExpectForm& expect) {
    ui::panel("To order", [&] {
        if (model.orders.empty())
            ui::hint("Nothing needs to be ordered for these days.");
        for (std::size_t i = 0; i < model.orders.size(); ++i)
            ui::scope(static_cast<std::int64_t>(i), [&] { draw_order(model.orders[i], expect); });
    });
}

void expect_form(ExpectForm& f, const app::PlanModel& model, const app::Notice& notice, app::Intents& out) {
    const auto* refusals = &f.asked.refusals;
    ui::form("Delivery to come", [&] {
        ui::flow([&] {
            name_choice({.label = "Mill", .refusals = refusals, .width = 12_em}, model.mills, f.mill);
            name_choice({.label = "Flour", .refusals = refusals, .width = 12_em}, model.flours, f.flour);
            ui::number_field({.label = "Weight", .unit = "kg", .refusals = refusals, .width = 7_em}, f.kg);
            ui::date_field({.label = "Arrives", .refusals = refusals, .width = 8_em}, f.arrives, model.today);
            ui::date_field({.label = "Milled on", .hint = "not known", .refusals = refusals, .width = 8_em},
                           f.milled, model.today);
            ui::text_field(
                {.label = order_number, .hint = "as a label says it", .refusals = refusals, .width = 9_em},
                f.order);
        });
        ui::all_refusals(
            all_but(*refusals, {"Mill", "Flour", "Weight", "Arrives", "Milled on", order_number}));
        ui::flow([&] {
            if (ui::button("Expect delivery", {.kind = ButtonKind::primary})) {
                f.asked.ask(notice);
                out.emplace_back(
                    app::ExpectDelivery{f.mill, f.flour, f.kg, f.arrives, f.milled, {}, f.order});
            }
            if (ui::button("Close form", {.kind = ButtonKind::quiet}))
                f.is_open = false;
        });
    });
}

void draw_expected(FlourPage& page, std::optional<PlanQuestion>& question, const app::PlanModel& model,
                   const app::Notice& notice, app::Intents& out) {
    const auto asks = [&](PlanQuestion::Deed deed, const app::ExpectedRow& row) {
        question.emplace();
        question->deed = deed;
        question->delivery = row.id;
        question->words = row.words;
    };
    ui::panel("To come", [&] {
        if (model.expected.empty())
            ui::hint("No delivery is expected. The plan counts on one from its arrival on.");
        for (const auto& row : model.expected)
            ui::scope(row.id.number(), [&] {
                ui::paragraph(row.words, {.weight = ui::Weight::bold});
                if (row.is_late)
                    ui::status(Role::mind, "It should have come.");
                ui::paragraph(row.promised.empty() ? "No run counts on it." : "Counted on: " + row.promised);
                ui::flow([&] {
                    if (ui::button("It came"))
                        asks(PlanQuestion::Deed::it_came, row);
                    if (ui::button("Called off"))
                        asks(PlanQuestion::Deed::called_off, row);
                });
                ui::gap();
            });
        if (page.expect.is_open)
            expect_form(page.expect, model, notice, out);
        else
            page.expect.is_open = ui::button("Expect a delivery");
    });
}

void reserve(ReserveForm& f, const app::PlanModel& model, const app::LotsModel& lots,
             const app::Notice& notice, app::Intents& out) {
    const auto* lot = lot_in_stock(lots, f.lot);
    if (lot == nullptr) {
        f.asked.refusals = {no_such_lot("Lot", f.lot)};
        return;
    }
    const auto product = static_cast<std::size_t>(f.product);
    const bool is_for_product = product > 0 && product <= model.products.size();
    f.asked.ask(notice);
    out.emplace_back(app::ReserveLot{lot->id, is_for_product ? model.products[product - 1] : std::string(),
                                     is_for_product ? std::string() : f.kg, f.reason});
}

void reserve_form(ReserveForm& f, const app::PlanModel& model, const app::LotsModel& lots,
                  const app::Notice& notice, app::Intents& out) {
    const auto* refusals = &f.asked.refusals;
    std::vector<std::string> whose{std::string(nobodys)};
    whose.insert(whose.end(), model.products.begin(), model.products.end());
    ui::form("Reservation", [&] {
        lot_field({.label = "Lot", .refusals = refusals, .width = 14_em}, lots, f.lot);
        ui::choice({.label = "Product", .refusals = refusals, .width = 18_em}, whose, f.product);
        if (f.product == 0)
            ui::number_field({.label = "Weight", .unit = "kg", .refusals = refusals, .width = 7_em}, f.kg);
        else
            ui::hint("The whole lot is kept for this product.");
        ui::text_field({.label = "Reason", .refusals = refusals, .width = 18_em}, f.reason);
        ui::all_refusals(all_but(*refusals, {"Lot", "Product", "Weight", "Reason"}));
        ui::flow([&] {
            if (ui::button("Reserve lot", {.kind = ButtonKind::primary}))
                reserve(f, model, lots, notice, out);
            if (ui::button("Close form", {.kind = ButtonKind::quiet}))
                f.is_open = false;
        });
    });
}

void draw_reserved(FlourPage& page, std::optional<PlanQuestion>& question, const app::PlanModel& model,
                   const app::LotsModel& lots, const app::Notice& notice, app::Intents& out) {
    ui::panel("Reserved", [&] {
        if (model.reserved.empty())
            ui::hint("No flour is reserved: every plan may use all of it.");
        for (const auto& row : model.reserved)
            ui::scope(row.id.number(), [&] {
                ui::paragraph(row.words);
                if (ui::button("End reservation")) {
                    question.emplace();
                    question->deed = PlanQuestion::Deed::end_reservation;
                    question->reservation = row.id;
                    question->words = row.words;
                }
                ui::gap();
            });
        if (page.reserve.is_open)
            reserve_form(page.reserve, model, lots, notice, out);
        else
            page.reserve.is_open = ui::button("Reserve a lot");
    });
}

/// What was accepted leaves an empty, closed form.
void take_answers(FlourPage& page, const app::Notice& notice) {
    if (page.expect.asked.is_done(notice))
        page.expect = {};
    if (page.reserve.asked.is_done(notice))
        page.reserve = {};
}

} // namespace

void draw(FlourPage& page, std::optional<PlanQuestion>& question, const app::PlanModel& model,
          const app::LotsModel& lots, const app::Notice& notice, app::Intents& out) {
    take_answers(page, notice);
    const auto to_order = [&] { draw_orders(model, page.expect); };
    const auto to_come = [&] {
        draw_expected(page, question, model, notice, out);
        draw_reserved(page, question, model, lots, notice, out);
    };
    ui::panes({{.name = "To order", .share = 1, .least = 24_em, .body = to_order},
               {.name = "To come", .share = 1, .least = 28_em, .body = to_come}});
}

} // namespace mellowbin::views
