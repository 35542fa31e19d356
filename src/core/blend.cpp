#include "core/blend.h"

#include "core/promised.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>

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
        promised(part.certificate && part.mass >= Kilograms{0});
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

std::optional<Protein14> protein_of(std::span<const BlendPart> parts) {
    const auto value = blend_value(parts, Property::protein);
    return value ? std::optional{Protein14{value->value}} : std::nullopt;
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

} // namespace mellowbin
