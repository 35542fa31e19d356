#include "core/blend.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace mellowbin {
namespace {

/// At 50 s and below the liquefaction number means nothing.
constexpr double lowest_falling_number = 50;

double weight_at_14(const BlendPart& part) {
    const auto moisture = part.certificate->moisture();
    return moisture ? part.mass.value() * (100.0 - moisture->value()) / 86.0 : part.mass.value();
}

} // namespace

std::optional<BlendValue> blend_value(std::span<const BlendPart> parts, Property property) {
    const BlendRule rule = traits(property).blend;
    double sum = 0;
    double weights = 0;
    int count = 0;
    const CertificateValue* first = nullptr;
    for (const auto& part : parts) {
        assert(part.certificate && part.mass >= Kilograms{0});
        if (part.mass <= Kilograms{0})
            continue;
        const auto value = comparable_at_14(*part.certificate, property);
        if (!value || (rule == BlendRule::by_liquefaction && *value <= lowest_falling_number))
            return {};
        const auto* reported = part.certificate->find(property);
        if (first && depends_on_method(property) && !same_words(first->method, reported->method))
            return {};
        first = reported;
        ++count;
        const double weight = rule == BlendRule::by_mass_as_is ? part.mass.value() : weight_at_14(part);
        sum += weight *
               (rule == BlendRule::by_liquefaction ? to_liquefaction(FallingNumber{*value}).value() : *value);
        weights += weight;
    }
    if (weights <= 0)
        return {};
    const double mean = sum / weights;
    if (rule == BlendRule::by_liquefaction)
        return BlendValue{to_falling_number(Liquefaction{mean}).value(), false};
    return BlendValue{mean, rule == BlendRule::strength_estimate && count > 1};
}

Result<std::pair<double, double>> pearson_square(double first, double second, double target) {
    const auto [low, high] = std::minmax(first, second);
    if (target < low || target > high || low == high) {
        return Refusal{"Target",
                       fmt::format("{:g} was read; between {:g} and {:g} is expected", target, low, high),
                       "Choose a target between the two flours"};
    }
    const double share = (target - second) / (first - second);
    return std::pair{share, 1 - share};
}

Result<double> share_for_falling_number(FallingNumber a, FallingNumber b, FallingNumber target) {
    const FallingNumber lowest = std::min({a, b, target});
    if (lowest.value() <= lowest_falling_number) {
        return Refusal{"Falling number",
                       fmt::format("{:g} s was read; above 50 s is expected", lowest.value()),
                       "Below that the liquefaction number means nothing"};
    }
    auto shares = pearson_square(to_liquefaction(a).value(), to_liquefaction(b).value(),
                                 to_liquefaction(target).value());
    if (!shares) {
        return Refusal{"Falling number",
                       fmt::format("{:g} s was read; between {:g} and {:g} s is expected", target.value(),
                                   std::min(a, b).value(), std::max(a, b).value()),
                       "Choose a target between the two flours"};
    }
    return shares->first;
}

} // namespace mellowbin
