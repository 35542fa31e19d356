#include "core/blend.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

double weight_at_14(const BlendPart& part) {
    const auto moisture = part.certificate->moisture();
    return moisture ? part.mass.value() * (100.0 - moisture->value()) / 86.0 : part.mass.value();
}

} // namespace

std::optional<BlendValue> blend_value(std::span<const BlendPart> parts, Property property) {
    const BlendRule rule = traits(property).blend;
    double sum = 0;
    double weights = 0;
    for (const auto& part : parts) {
        const auto value = comparable_at_14(*part.certificate, property);
        if (!value)
            return {};
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
    return BlendValue{mean, rule == BlendRule::strength_estimate && parts.size() > 1};
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
    if (lowest.value() <= 50) {
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
