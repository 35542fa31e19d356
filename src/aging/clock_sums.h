#pragma once

#include "aging/priors.h"
#include "core/day.h"

#include <array>
#include <limits>
#include <span>
#include <vector>

/// How far a clock ran while the temperature went up and down, summed from the beginning on, so that a
/// question about any stretch of time costs the same however long the log is.
namespace mellowbin::aging {

/// The clocks that sums are kept for.
enum class Clock { maturing, life, wholemeal_life };
inline constexpr std::size_t clock_kinds = static_cast<std::size_t>(Clock::wholemeal_life) + 1;
using ClockFactors = std::array<TemperatureFactor, clock_kinds>; ///< by Clock

/// Days from 1970-01-01T00:00Z, fractions allowed. A plant's day is taken to begin at midnight UTC.
inline double days_of(Instant at) { return static_cast<double>(at.time_since_epoch().count()) / 86400.0; }
inline double days_of(Day day) { return static_cast<double>(day.time_since_epoch().count()); }
inline constexpr double for_ever = std::numeric_limits<double>::infinity();

/// A piece of a course of temperature: in a straight line from one end to the other.
struct Stretch {
    double from;  ///< days
    double until; ///< days; for_ever at the last
    Celsius at_start, at_end;
    bool is_measured;

    /// The temperature at a moment of the piece, or at its start where it goes on for ever.
    [[nodiscard]] Celsius at(double days) const;
};

/// The integral of exp(log_q10 (T - 20)/10) over days in which T goes in a straight line from `a` to `b`, T
/// clamped as clamped() does; exact.
double days_at_20(double days, Celsius a, Celsius b, double log_q10);

/// A straight line of temperature on either side of the join (cold_from()): how long it was warm, from where
/// to where, and how long cold. A side on which it never was has no days.
struct WarmAndCold {
    struct Part {
        double days = 0;
        Celsius start, end;
    };
    Part warm, cold;
};
WarmAndCold split_at_the_join(double days, Celsius a, Celsius b);
/// The integral of exp(log_cold (T - join)/10) over days in which T goes in a straight line from `a` to `b`,
/// both at or below the join; exact.
double days_at_the_join(double days, Celsius a, Celsius b, double log_cold);

inline constexpr std::size_t clock_nodes = 5; ///< at most, of the quadrature over a Q10's doubt
/// Where a Q10 is read to average over its doubt: three nodes for a narrow doubt, five for a wide one, the
/// median in their middle.
struct Q10Nodes {
    std::size_t count = 1;
    std::array<double, clock_nodes> log_q10{};
    std::array<double, clock_nodes> weights{};
    [[nodiscard]] std::size_t middle() const { return count / 2; }
};
Q10Nodes nodes_of(Lognormal q10);

/// How far a clock ran, in days at 20 C, at each node of its Q10; and how much of that at a temperature that
/// was assumed, not measured. Of a clock with a steepness of its own in the cold that is what it ran from the
/// join upwards; what it ran below stands apart, in days at the join, at each node of that steepness.
struct ClockRun {
    using Nodes = std::array<double, clock_nodes>;
    Nodes all{};
    Nodes assumed{};
    Nodes cold{};
    Nodes cold_assumed{};

    [[nodiscard]] bool is_cold() const { return cold[0] > 0; }

    ClockRun& operator+=(const ClockRun& more);
    friend ClockRun operator-(const ClockRun& later, const ClockRun& earlier);
    friend ClockRun operator*(double share, const ClockRun& run);
    friend bool operator==(const ClockRun&, const ClockRun&) = default;
};

/// How far the clock ran in each of some stretches, where that is known already: the stretches from `first`
/// on.
struct KnownRuns {
    std::size_t first = 0;
    std::vector<ClockRun> runs = {};
};

/// The sums of one clock over a course.
class ClockSums {
public:
    ClockSums() = default;
    /// In a stretch whose run is known the clock counts as running evenly.
    ClockSums(std::span<const Stretch> stretches, const TemperatureFactor& factor,
              const KnownRuns& known = {});
    /// From the course's first stretch to a moment of the given stretch; negative before the course begins.
    [[nodiscard]] ClockRun until(std::span<const Stretch> stretches, std::size_t stretch, double days) const;
    [[nodiscard]] const TemperatureFactor& factor() const { return factor_; }

private:
    [[nodiscard]] ClockRun within(const Stretch& stretch, double days) const;
    [[nodiscard]] bool is_known(std::size_t stretch) const {
        return stretch >= first_known_ && stretch < past_known_;
    }

    TemperatureFactor factor_;
    Q10Nodes nodes_, cold_nodes_;
    std::vector<ClockRun> before_; ///< at the start of each stretch
    std::size_t first_known_ = 0, past_known_ = 0;
};

} // namespace mellowbin::aging
