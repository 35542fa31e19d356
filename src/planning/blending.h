#pragma once

#include "planning/tables.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <span>

namespace mellowbin::planning {

/// The most lots the kernel blends beside the locked ones, whatever a product would allow.
inline constexpr int most_blended = 4;

/// A share of a run's fill that is nothing.
inline constexpr double slight_share = 1e-9;
/// A gain that is not worth a change, in currency.
inline constexpr double slight_cost = 1e-7;

/// A lot that a run could take now, seen by the kernel.
struct Candidate {
    int index;     ///< in the run's table
    double most;   ///< share of the fill that the stock allows, up to 1
    double linear; ///< cost of the whole fill, the stock's price included
    double charge; ///< for taking it at all
    std::uint64_t over;
    const double* pure;
};

/// Some candidates and their shares.
struct Support {
    std::array<int, most_blended> of; ///< index into the candidates
    std::array<double, most_blended> share;
    int count = 0;
    double cost = 0; ///< with prices and charges
};

/// A convex piecewise linear cost along a line s: slope·s + sum of (value + s·step) above zero.
class Line {
public:
    Line(double low, double high, double slope) : low_(low), high_(high), slope_(slope) {}

    void add(double value, double step) {
        const double at_low = value + low_ * step;
        if (at_low > 0 || (at_low == 0 && step > 0))
            slope_ += step;
        if (step == 0)
            return;
        const double turn = -value / step;
        if (turn <= low_ || turn >= high_)
            return;
        int i = count_++;
        for (; i > 0 && turns_[i - 1].at > turn; --i)
            turns_[i] = turns_[i - 1];
        turns_[i] = {turn, std::abs(step)};
    }

    /// Where the cost is least: walks up from break point to break point while it still falls.
    [[nodiscard]] double lowest() const {
        double slope = slope_;
        double at = low_;
        for (int i = 0; slope < 0; ++i) {
            if (i == count_)
                return high_;
            at = turns_[i].at;
            slope += turns_[i].more;
        }
        return at;
    }

private:
    struct Turn {
        double at;
        double more;
    };
    double low_;
    double high_;
    double slope_;
    int count_ = 0;
    std::array<Turn, most_hinges> turns_;
};

/// Finds the shares of a support that cost least by walking lines: the swaps between two lots, the lines
/// along which a hinge stays at its turn, and, where the run cannot be filled, more or less of one lot. Exact
/// for up to three lots on the full mass. False if no shares keep stock, least share and the oxidant cap.
/// `base_over`: the hinges that the locked flour alone is over.
bool settle(const RunTable& run, std::span<const Candidate> candidates, std::uint64_t base_over,
            Support& support);

} // namespace mellowbin::planning
