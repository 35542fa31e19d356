#pragma once

#include "ui/widgets/theme.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace mellowbin::ui {

// WCAG 2.1, definition of relative luminance (its threshold 0.03928 as printed there).
inline double linear(std::uint8_t channel) {
    const double c = channel / 255.0;
    return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

inline double luminance(Colour c) {
    return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

/// Contrast ratio of two colours, 1 to 21: (L1 + 0.05) / (L2 + 0.05) with the relative luminance of
/// WCAG 2.1, "contrast ratio" and "relative luminance".
inline double contrast(Colour one, Colour other) {
    auto [dim, bright] = std::minmax({luminance(one), luminance(other)});
    return (bright + 0.05) / (dim + 0.05);
}

} // namespace mellowbin::ui
