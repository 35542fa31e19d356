#include "ui/views/intake/delivery_form.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

namespace mellowbin::views {
namespace {

constexpr std::array own_fields{on_note_field, weighed_field, order_field, expected_field,
                                weight_reason_field};

bool is_own(std::string_view field) {
    return std::find(own_fields.begin(), own_fields.end(), field) != own_fields.end();
}

template <class Record> const Record* named(const std::vector<Record>& records, const std::string& name) {
    const auto at =
        std::find_if(records.begin(), records.end(), [&](const Record& one) { return one.name == name; });
    return at == records.end() ? nullptr : &*at;
}

template <class Record, class IdOf> std::string name_of(const std::vector<Record>& records, IdOf id) {
    const auto at =
        std::find_if(records.begin(), records.end(), [&](const Record& one) { return one.id == id; });
    return at == records.end() ? std::string() : at->name;
}

/// Of the mill nothing is known where its word was the day of arrival.
std::string milled_words(const ExpectedDelivery& expected) {
    return expected.milled < expected.arrives ? iso(expected.milled) : std::string();
}

void fill_line(DeliveryLine& line, const ExpectedDelivery& expected, const app::IntakeModel& model) {
    const auto fill = [&](std::string_view field, std::string& text, const std::string& said) {
        if (said.empty() || !text.empty())
            return;
        text = said;
        line.change(field);
        line.expected.insert(std::string(field));
    };
    fill("Mill", line.draft.mill, name_of(model.records.mills, expected.mill));
    fill("Flour", line.draft.flour, name_of(model.records.flours, expected.flour));
    if (line.draft.flour == name_of(model.records.flours, expected.flour) && !is_untouched(line.draft))
        fill("Milled on", line.draft.milled_on, milled_words(expected));
}

/// As the lots stand here, and those of the delivery that are in the book.
DeliveryWeights weights_of(const DeliveryForm& form, const Delivery& delivery,
                           const app::IntakeModel& model) {
    DeliveryWeights weights;
    const auto here = weight_here(delivery);
    weights.of_lots = here.mass + form.in_already;
    weights.rest = here.without > 0 ? Rest::follows : Rest::none;
    if (const auto* expected = answered(form, model)) {
        weights.expected = expected->mass;
        weights.of_expected_flour =
            weight_here(delivery, name_of(model.records.flours, expected->flour)).mass + form.in_already;
    }
    return weights;
}

/// Said by the weights themselves, a line each.
bool is_of_weights(const DeliveryForm& form, const Refusal& refusal) {
    return std::any_of(form.weights.begin(), form.weights.end(), [&](const WeightBeside& one) {
        return one.is_outside && one.field == refusal.field && refusal.what.starts_with(one.words);
    });
}

} // namespace

void DeliveryForm::follow(std::string_view field, bool is_changed, bool is_left) {
    if (is_changed)
        answered.clear();
    if (is_left)
        left.insert(std::string(field));
}

Refusals DeliveryForm::take(const Refusals& all) {
    Refusals others;
    answered.clear();
    for (const auto& refusal : all)
        (is_own(refusal.field) ? answered : others).push_back(refusal);
    all_left = all_left || !answered.empty();
    return others;
}

void DeliveryForm::check(const Delivery& delivery, const app::IntakeModel& model) {
    if (joins.is_known() && joins == model.came)
        in_already = to_grams(Kilograms{model.came_kg});
    DeliveryContext context;
    context.units = model.records.units;
    context.tolerance_percent = model.weight_tolerance;
    context.weights = weights_of(*this, delivery, model);
    const auto record = accept(draft, context);
    auto said = context.weights;
    Refusals ignored;
    said.on_note = read_house_weight(on_note_field, draft.on_note, context.units, ignored);
    said.weighed = read_house_weight(weighed_field, draft.weighed, context.units, ignored);
    weights = compare_weights(said, context.tolerance_percent, context.units);
    const auto is_due = [&](const Refusal& refusal) {
        if (refusal.field == weight_reason_field)
            return asks_why();
        return !is_of_weights(*this, refusal) && (all_left || left.contains(refusal.field));
    };
    refusals.clear();
    if (!record)
        std::copy_if(record.refusals().begin(), record.refusals().end(), std::back_inserter(refusals),
                     is_due);
    for (const auto& refusal : answered)
        if (refusal.field == expected_field && !is_of_weights(*this, refusal))
            refusals.push_back(refusal);
}

bool DeliveryForm::is_due(const WeightBeside& weight) const {
    return weight.is_outside && (all_left || weight.is > weight.said);
}

bool DeliveryForm::asks_why() const {
    return !draft.weight_reason.empty() ||
           std::any_of(weights.begin(), weights.end(), [&](const WeightBeside& one) { return is_due(one); });
}

void DeliveryForm::answer(const ExpectedDelivery& expected, Delivery& delivery,
                          const app::IntakeModel& model) {
    draft.expected = expected.code;
    filled.clear();
    answered.clear();
    fill(delivery, model);
}

void DeliveryForm::answer_none(Delivery& delivery) {
    draft.expected.clear();
    by_order.clear();
    filled.clear();
    answered.clear();
    for (const auto& one : delivery.lines()) {
        auto& line = *delivery.find(one.number);
        for (const auto& field : std::exchange(line.expected, {})) {
            (field == "Mill"    ? line.draft.mill
             : field == "Flour" ? line.draft.flour
                                : line.draft.milled_on)
                .clear();
            line.change(field);
        }
    }
}

void DeliveryForm::fill(Delivery& delivery, const app::IntakeModel& model) {
    const auto* expected = views::answered(*this, model);
    if (!expected)
        return;
    for (const auto& one : delivery.lines()) {
        auto& line = *delivery.find(one.number);
        const bool is_begun = !views::is_untouched(line.draft);
        if (filled.contains(line.number) || (!is_begun && line.number != delivery.at_hand().number))
            continue;
        fill_line(line, *expected, model);
        if (is_begun)
            filled.insert(line.number);
    }
}

const ExpectedDelivery* answered(const DeliveryForm& form, const app::IntakeModel& model) {
    const auto at =
        std::find_if(model.expected.begin(), model.expected.end(),
                     [&](const ExpectedDelivery& one) { return one.code == form.draft.expected; });
    return at == model.expected.end() ? nullptr : &*at;
}

std::vector<const ExpectedDelivery*> offered(const Delivery& delivery, const app::IntakeModel& model) {
    const auto& lot = delivery.at_hand().draft;
    const auto* mill = named(model.records.mills, lot.mill);
    const auto* flour = named(model.records.flours, lot.flour);
    const auto day = read_day("Delivered on", lot.delivered_on);
    if (!mill || !day || !*day)
        return {};
    return candidates(model.expected, mill->id, flour ? std::optional(flour->id) : std::nullopt, **day,
                      model.match_days);
}

std::string expected_words(const ExpectedDelivery& expected, const app::IntakeModel& model) {
    return fmt::format("Expected {}: {} {}", short_day(expected.arrives),
                       weight_words(expected.mass, model.records.units),
                       name_of(model.records.flours, expected.flour));
}

WeightHere weight_here(const Delivery& delivery, std::optional<std::string> flour) {
    WeightHere here;
    for (const auto number : delivery.filled()) {
        const auto& draft = delivery.find(number)->draft;
        const auto kg = read_decimal("Weight", draft.mass_kg);
        if (!kg || !*kg)
            ++here.without;
        else if (!flour || draft.flour == *flour)
            here.mass += to_grams(Kilograms{**kg});
    }
    return here;
}

} // namespace mellowbin::views
