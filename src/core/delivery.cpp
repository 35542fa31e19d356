#include "core/delivery.h"

#include "core/draft_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <tuple>

namespace mellowbin {
namespace {

constexpr Kilograms least_weight{0.1}, most_weight{1'000'000};

/// Thousands apart: "12 000".
std::string grouped(std::int64_t whole) {
    auto digits = std::to_string(whole);
    for (auto at = static_cast<std::ptrdiff_t>(digits.size()) - 3; at > 0; at -= 3)
        digits.insert(static_cast<std::size_t>(at), 1, ' ');
    return digits;
}

/// "0.83 % less", "12.5 % more", "the same".
std::string difference_words(Grams is, Grams said) {
    if (is == said)
        return "the same";
    const double percent =
        std::abs(static_cast<double>(is.count() - said.count())) * 100 / static_cast<double>(said.count());
    return fmt::format("{:.{}f} % {}", percent, percent < 1 ? 2 : 1, is < said ? "less" : "more");
}

bool is_outside(Grams is, Grams said, double tolerance_percent) {
    const double apart = std::abs(static_cast<double>(is.count() - said.count()));
    const double allowed = static_cast<double>(said.count()) * tolerance_percent / 100;
    constexpr double rounding = 1e-6; // of a gram: just as much is inside
    return apart > allowed + rounding;
}

} // namespace

bool is_empty(const DeliveryDraft& draft) { return draft == DeliveryDraft(); }

std::string read_order(std::string_view typed, Refusals& refusals) {
    constexpr std::size_t longest = 80;
    std::string order(trimmed(typed));
    const bool has_control =
        std::any_of(order.begin(), order.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; });
    if (order.size() > longest || has_control)
        refusals.push_back({std::string(order_field),
                            fmt::format("\"{}\" was read; one line of up to {} characters is expected",
                                        excerpt(order), longest),
                            "Read it from the order or the label"});
    return order;
}

std::string weight_words(Grams mass, const HouseUnits& units) {
    const auto tenths = std::llround(units.shown(to_kilograms(mass)) * 10);
    const auto decimal = tenths % 10 == 0 ? std::string() : fmt::format(".{}", tenths % 10);
    return fmt::format("{}{} {}", grouped(tenths / 10), decimal, units.mass());
}

std::vector<WeightBeside> compare_weights(const DeliveryWeights& weights, double tolerance_percent,
                                          const HouseUnits& units) {
    std::vector<WeightBeside> all;
    const auto compare = [&](std::string_view field, Grams is, std::string_view of_what, Grams said,
                             std::string_view by_what, Rest rest) {
        if (is <= Grams{0})
            return;
        const bool may_come_yet = rest == Rest::follows && is < said;
        all.push_back({field, is, said,
                       fmt::format("{} {}, {} {}: {}", weight_words(is, units), of_what,
                                   weight_words(said, units), by_what, difference_words(is, said)),
                       !may_come_yet && is_outside(is, said, tolerance_percent)});
    };
    if (weights.on_note)
        compare(on_note_field, weights.of_lots, "of lots", *weights.on_note, "on the note", weights.rest);
    if (weights.weighed && weights.on_note)
        compare(weighed_field, *weights.weighed, "weighed", *weights.on_note, "on the note", Rest::none);
    else if (weights.weighed && weights.of_lots > Grams{0} &&
             (weights.rest == Rest::none || *weights.weighed < weights.of_lots))
        compare(weighed_field, *weights.weighed, "weighed", weights.of_lots, "of lots", Rest::none);
    if (weights.expected)
        compare(expected_field, weights.of_expected_flour, "here", *weights.expected, "expected",
                weights.rest);
    return all;
}

Refusals what_weights_say(const DeliveryWeights& weights, double tolerance_percent, const HouseUnits& units) {
    Refusals doubts;
    for (const auto& one : compare_weights(weights, tolerance_percent, units))
        if (one.is_outside)
            doubts.push_back({std::string(one.field),
                              fmt::format("{}; up to {:g} % is let be", one.words, tolerance_percent),
                              "Correct the weights, have the note corrected, or say why it is let be"});
    return doubts;
}

std::optional<Grams> read_house_weight(std::string_view field, std::string_view typed,
                                       const HouseUnits& units, Refusals& refusals) {
    typed = trimmed(typed);
    HouseUnits of_text = units;
    for (const std::string_view unit : {"kg", "lb"})
        if (typed.ends_with(unit)) {
            typed.remove_suffix(unit.size());
            of_text = HouseUnits(unit, units.temperature());
        }
    const auto mass = of_text.read_mass(field, trimmed(typed), least_weight, most_weight, refusals);
    return mass ? std::optional(to_grams(*mass)) : std::nullopt;
}

Result<DeliveryRecord> accept(const DeliveryDraft& draft, const DeliveryContext& context) {
    DraftReader reader;
    DeliveryRecord record;
    record.order = read_order(draft.order, reader.refusals);
    record.remark = trimmed(draft.remark);
    record.on_note = read_house_weight(on_note_field, draft.on_note, context.units, reader.refusals);
    record.weighed = read_house_weight(weighed_field, draft.weighed, context.units, reader.refusals);
    auto weights = context.weights;
    weights.on_note = record.on_note ? record.on_note : weights.on_note;
    weights.weighed = record.weighed ? record.weighed : weights.weighed;
    const auto doubts = what_weights_say(weights, context.tolerance_percent, context.units);
    if (!doubts.empty())
        record.weight_reason = trimmed(draft.weight_reason);
    if (!doubts.empty() && record.weight_reason.empty()) {
        append(reader.refusals, doubts);
        reader.refuse(weight_reason_field, "is empty", "Say it in a few words, or correct the weights");
    }
    if (!reader.refusals.empty())
        return reader.refusals;
    return record;
}

std::string days_beside(Day came, Day expected) {
    const auto days = (came - expected).count();
    if (days == 0)
        return "on the day";
    return fmt::format("{} {} {}", std::abs(days), std::abs(days) == 1 ? "day" : "days",
                       days > 0 ? "late" : "early");
}

std::vector<const ExpectedDelivery*> candidates(std::span<const ExpectedDelivery> expected, MillId mill,
                                                std::optional<FlourId> flour, Day day, int days) {
    std::vector<const ExpectedDelivery*> found;
    const auto apart = [&](const ExpectedDelivery& one) { return std::abs((one.arrives - day).count()); };
    for (const auto& one : expected)
        if (!one.has_come && one.mill == mill && (!flour || one.flour == *flour) && apart(one) <= days)
            found.push_back(&one);
    std::sort(found.begin(), found.end(), [&](const ExpectedDelivery* a, const ExpectedDelivery* b) {
        return std::tuple(apart(*a), a->id) < std::tuple(apart(*b), b->id);
    });
    return found;
}

const ExpectedDelivery* of_order(std::span<const ExpectedDelivery> expected, std::string_view order,
                                 std::optional<MillId> mill) {
    const auto wanted = trimmed(order);
    const ExpectedDelivery* found = nullptr;
    for (const auto& one : expected) {
        if (one.has_come || wanted.empty() || one.order != wanted || (mill && one.mill != *mill))
            continue;
        if (found)
            return nullptr;
        found = &one;
    }
    return found;
}

} // namespace mellowbin
