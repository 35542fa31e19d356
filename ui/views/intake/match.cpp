#include "app/acts/intake.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/views/intake/delivery_side.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::size_t most_offered = 3;

void row(DeliveryForm& form, std::string_view field, std::string& text, std::string_view unit,
         std::string_view note = {}) {
    ui::form_row({.label = field, .refusals = &form.refusals, .note = note}, [&] {
        const auto one = ui::field_in_row(field, form.refusals, unit);
        const auto edited = unit.empty() ? ui::text_field(one, text) : ui::number_field(one, text);
        form.follow(field, edited.changed, edited.left);
    });
}

/// "11 900 kg here"
std::string here_words(const IntakeView& view, const app::IntakeModel& model,
                       const ExpectedDelivery& expected) {
    const auto flour = std::find_if(model.records.flours.begin(), model.records.flours.end(),
                                    [&](const Flour& one) { return one.id == expected.flour; });
    const auto here =
        weight_here(view.delivery, flour == model.records.flours.end() ? std::string() : flour->name);
    return weight_words(here.mass + view.form.in_already, model.records.units) + " here";
}

void offer(IntakeView& view, const app::IntakeModel& model) {
    const auto all = offered(view.delivery, model);
    const ExpectedDelivery* chosen = nullptr;
    for (std::size_t i = 0; i < std::min(all.size(), most_offered); ++i)
        ui::scope(all[i]->id.number(), [&] {
            const auto& expected = *all[i];
            ui::paragraph(
                fmt::format("{}, {}", expected_words(expected, model), here_words(view, model, expected)));
            if (ui::button(fmt::format("It is {}", expected.code), {.key = i == 0 ? "F8" : ""}))
                chosen = &expected;
        });
    if (!chosen && !all.empty() && ui::key_pressed(ui::Key::f8))
        chosen = all.front();
    if (chosen)
        view.form.answer(*chosen, view.delivery, model);
}

void answered_one(IntakeView& view, const app::IntakeModel& model, const ExpectedDelivery& expected) {
    auto words = fmt::format("{}: {}, {}", expected.code, expected_words(expected, model),
                             here_words(view, model, expected));
    if (!view.form.by_order.empty())
        words += fmt::format(", by its order {}", view.form.by_order);
    ui::status(Role::good, words);
    if (ui::button("It is another one", {.kind = ui::ButtonKind::quiet}))
        view.form.answer_none(view.delivery);
}

/// Another station was quicker, or it was called off.
void gone(IntakeView& view) {
    ui::status(Role::mind, fmt::format("{} is to come no more", view.form.draft.expected));
    if (ui::button("It is another one", {.kind = ui::ButtonKind::quiet}))
        view.form.answer_none(view.delivery);
}

void weights(const DeliveryForm& form, double tolerance) {
    for (const auto& one : form.weights)
        if (form.is_due(one))
            ui::status(Role::stop, fmt::format("{}; up to {:g} % is let be", one.words, tolerance));
        else
            ui::status(one.is_outside ? Role::quiet : Role::good, one.words);
}

/// What the book says against the expected delivery, and why weights that differ are let be.
void reason(DeliveryForm& form) {
    Refusals at_no_field;
    for (const auto& refusal : form.refusals)
        if (refusal.field == expected_field)
            at_no_field.push_back(refusal);
    ui::all_refusals(at_no_field);
    if (form.asks_why())
        row(form, weight_reason_field, form.draft.weight_reason, "");
}

} // namespace

void draw_whole(IntakeView& view, const app::IntakeModel& model) {
    auto& form = view.form;
    const auto& unit = model.records.units.mass();
    row(form, on_note_field, form.draft.on_note, unit);
    if (is_refused(form.refusals, order_field) || is_refused(form.refusals, weighed_field))
        form.shows_more = true;
    if (!form.shows_more && form.draft.order.empty() && form.draft.weighed.empty() &&
        form.draft.remark.empty()) {
        form.shows_more = ui::button("Weighed, order, remark", {.kind = ui::ButtonKind::quiet});
        return;
    }
    row(form, weighed_field, form.draft.weighed, unit);
    row(form, order_field, form.draft.order, "");
    row(form, "Remark", form.draft.remark, "");
}

void draw_match(IntakeView& view, const app::IntakeModel& model) {
    if (const auto* expected = answered(view.form, model))
        answered_one(view, model, *expected);
    else if (view.form.draft.expected.empty())
        offer(view, model);
    else
        gone(view);
    weights(view.form, model.weight_tolerance);
    reason(view.form);
}

std::string take_order(IntakeView& view, const app::IntakeModel& model) {
    auto& form = view.form;
    const auto& order = model.pallet.order;
    if (order.empty())
        return {};
    if (!form.draft.order.empty() && form.draft.order != order)
        return fmt::format("; it is of order {}, and the delivery of {}", order, form.draft.order);
    form.draft.order = order;
    const auto& mills = model.records.mills;
    const auto mill = std::find_if(mills.begin(), mills.end(), [&](const Mill& one) {
        return one.name == view.delivery.at_hand().draft.mill;
    });
    const auto* expected =
        of_order(model.expected, order, mill == mills.end() ? std::nullopt : std::optional(mill->id));
    if (!expected || !form.draft.expected.empty())
        return {};
    form.by_order = order;
    form.answer(*expected, view.delivery, model);
    return fmt::format("; order {} is {}", order, expected->code);
}

} // namespace mellowbin::views
