#pragma once

#include "core/certificate.h"

#include <span>

namespace mellowbin {

/// A lot's part of a blend, weighed as it lies there.
struct BlendPart {
    const Certificate* certificate = nullptr;
    Kilograms mass;
};

struct BlendValue {
    double value = 0; ///< at 14 % moisture where the property has a basis
    bool is_estimate =
        false; ///< strength values of a blend: show so, ask for a blend test, never schedule on them
};

/// The property of a blend; nothing when one part has no comparable figure, when damaged starch was measured
/// by different methods, or when nothing is weighed in. Weights are the masses brought to one moisture basis;
/// a part whose moisture is not known is weighed as it lies there. Parts of no mass count for nothing.
std::optional<BlendValue> blend_value(std::span<const BlendPart> parts, Property property);

/// The blend's protein at 14 % moisture, with its basis in the type.
std::optional<Protein14> protein_of(std::span<const BlendPart> parts);

/// The shares of two flours whose mean is the target (Pearson square), the first one's share first.
/// Refused when the target is not between the two.
Result<std::pair<double, double>> pearson_square(double first, double second, double target);

} // namespace mellowbin
