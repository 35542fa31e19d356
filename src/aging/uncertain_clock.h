#pragma once

#include "aging/normal.h"
#include "aging/priors.h"

#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace mellowbin::aging {

/// One temperature and one air, from `start` days after the clock's zero until the next stretch.
struct Stretch {
    double start = 0;
    double steps_from_20 = 0; ///< (T - 20 C)/10 K, T clamped
    Lognormal factor;         ///< on the rate
};

/// Time gone by before the clock's zero: any number of days from 0 to `most` is as likely.
struct HeadStart {
    double most = 0;
    Stretch at;
};

/// A clock that runs at rate x factor x q10^steps, with rate, factor and q10 lognormal and independent, one
/// draw each for the whole time. Its reading grows with every day. Probabilities by fixed quadrature: exact
/// in rate and factor (for one kind of air; for several, which share one draw, to the second order), five
/// points in q10, eight in the head start. No random numbers: the same lot, the same answer.
class UncertainClock {
public:
    UncertainClock(Lognormal rate, Lognormal q10, std::span<const Stretch> stretches, HeadStart head_start);

    /// That the clock shows at least `level` (above 0) after `days` (below 0: before its zero).
    [[nodiscard]] double probability_of(double level, double days) const;
    /// The reading that the clock is at or below with this probability, between 0 and 1, exclusive.
    [[nodiscard]] double reading_at(double probability, double days) const;
    /// Mean of a function of the reading.
    [[nodiscard]] double mean_of(const std::function<double(double)>& f, double days) const;
    /// First whole day from 0 to `latest` with probability_of(level, day) >= probability.
    [[nodiscard]] std::optional<int> first_day(double level, double probability, int latest) const;

private:
    static constexpr std::size_t nodes = 5; ///< of q10
    struct Sums {
        double start;
        std::array<double, nodes> speed;         ///< on this stretch, rate 1
        std::array<double, nodes> run;           ///< until its start
        std::array<double, nodes> doubt;         ///< sum of run x ln gsd of the factor
        std::array<double, nodes> doubt_squared; ///< sum of run x its square
        double log_gsd;
    };
    struct Reading {
        double log_run; ///< ln of the median reading at rate 1
        double spread;  ///< standard deviation of ln of the reading
    };

    [[nodiscard]] const Sums& stretch_at(double days) const;
    [[nodiscard]] Reading reading(const Sums& sums, std::size_t node, double days, double head) const;
    template <class F> [[nodiscard]] double mean_over_nodes(double days, F f) const;
    [[nodiscard]] double guess_of_day(double level, double z) const;

    double log_rate_;
    double rate_spread_; ///< ln gsd
    HeadStart head_start_;
    std::array<double, nodes> head_speed_;
    bool is_one_air_;
    std::vector<Sums> sums_;
};

} // namespace mellowbin::aging
