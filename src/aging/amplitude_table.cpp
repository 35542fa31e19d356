#include "aging/amplitude_table.h"

#include "core/promised.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

constexpr double lowest = -9, highest = 4, step = 0.02; // of ln theta: maturity 0.0001 and all but 1
constexpr auto row_count = static_cast<std::size_t>((highest - lowest) / step + 1.5);
constexpr int per_sd = 3;

} // namespace

AmplitudeTable::AmplitudeTable(const MaturingTest& test) {
    constexpr int half = amplitude_points / 2;
    for (std::size_t i = 0; i < amplitudes_.size(); ++i)
        amplitudes_[i] = test.published.mean + test.published.sd * (static_cast<double>(i) - half) / per_sd;
    promised(test.change == ChangeKind::points || amplitudes_.front() > -1);
    rows_.resize(row_count);
    for (std::size_t row = 0; row < row_count; ++row) {
        const double maturity = -std::expm1(-std::exp(lowest + step * static_cast<double>(row)));
        for (std::size_t i = 0; i < amplitude_points; ++i) {
            const double change = amplitudes_[i] * maturity;
            rows_[row][i] =
                static_cast<float>(test.change == ChangeKind::share ? std::log1p(change) : change);
        }
    }
}

const AmplitudeTable& AmplitudeTable::of(Property property) {
    static const std::vector<AmplitudeTable> tables(maturing_tests().begin(), maturing_tests().end());
    const MaturingTest* test = maturing_test(property);
    promised(test);
    return tables[static_cast<std::size_t>(test - maturing_tests().data())];
}

ByAmplitude AmplitudeTable::weights(Amplitude belief) const {
    const double spacing = amplitudes_[1] - amplitudes_[0];
    // A belief narrower than the grid would fall between its points.
    const double sd = std::max(belief.sd, 0.7 * spacing);
    const double mean = std::clamp(belief.mean, amplitudes_.front(), amplitudes_.back());
    std::array<double, amplitude_points> dense{};
    double sum = 0;
    for (std::size_t i = 0; i < amplitude_points; ++i) {
        const double z = (amplitudes_[i] - mean) / sd;
        dense[i] = std::exp(-z * z / 2);
        sum += dense[i];
    }
    ByAmplitude weights{};
    for (std::size_t i = 0; i < amplitude_points; ++i)
        weights[i] = static_cast<float>(dense[i] / sum);
    return weights;
}

ByAmplitude AmplitudeTable::at(double log_theta) const {
    const double place = (std::clamp(log_theta, lowest, highest) - lowest) / step;
    const auto row = std::min(static_cast<std::size_t>(place), row_count - 2);
    const auto share = static_cast<float>(place - static_cast<double>(row));
    const ByAmplitude &below = rows_[row], &above = rows_[row + 1];
    ByAmplitude changes;
    for (std::size_t i = 0; i < amplitude_places; ++i)
        changes[i] = below[i] + share * (above[i] - below[i]);
    return changes;
}

} // namespace mellowbin::aging
