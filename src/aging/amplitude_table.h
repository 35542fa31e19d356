#pragma once

#include "aging/evidence.h"

#include <array>
#include <vector>

namespace mellowbin::aging {

/// Of a grid over four published standard deviations on either side of the published mean, three steps each;
/// the places after the last one pad to whole vectors and weigh nothing.
inline constexpr std::size_t amplitude_points = 25;
inline constexpr std::size_t amplitude_places = 28;
using ByAmplitude = std::array<float, amplitude_places>;

/// ln(1 + a M), or a M for a change in points, over a grid of amplitudes and of x = ln theta, M = 1 -
/// exp(-exp(x)): what every likelihood asks for, tabulated once a property. Between rows 0.02 apart it is a
/// straight line: errs below 2e-5.
class AmplitudeTable {
public:
    explicit AmplitudeTable(const MaturingTest& test);
    static const AmplitudeTable& of(Property property); ///< of a maturing property

    [[nodiscard]] const std::array<double, amplitude_points>& amplitudes() const { return amplitudes_; }
    /// Prior weights on the grid, adding up to 1. Beyond its ends a belief is taken at its edge.
    [[nodiscard]] ByAmplitude weights(Amplitude belief) const;

    /// The changes at x.
    [[nodiscard]] ByAmplitude at(double log_theta) const;

private:
    std::array<double, amplitude_points> amplitudes_{};
    std::vector<ByAmplitude> rows_;
};

} // namespace mellowbin::aging
