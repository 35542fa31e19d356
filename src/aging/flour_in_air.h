#pragma once

#include "aging/clock_sums.h"
#include "aging/flour_moisture.h"
#include "core/plant.h"

#include <optional>
#include <span>
#include <vector>

namespace mellowbin::aging {

/// Time constant, days, of the drift of moisture where flour lies so; an assumption.
double drift_days(Air air);
/// Time constant, days, with which flour in a stack follows the temperature of the air; an assumption.
double warming_days();

/// Air that stays as it is, and brings flour in a stretch of time as far as the real air did.
struct SteadyAir {
    Celsius temperature;
    std::optional<Moisture> equilibrium; ///< nothing where the humidity was not known for some of the time
    friend bool operator==(const SteadyAir&, const SteadyAir&) = default;
};
/// Of a stretch: its mean temperature, and the equilibrium at that with its humidity.
SteadyAir steady_air(const Stretch& stretch, std::optional<RelativeHumidity> humidity);

/// How flour follows the air of a place: its moisture drifts towards equilibrium, its temperature lags
/// behind. Both are first-order; the answer to the course so far is kept at each stretch, so that a question
/// costs the same however long the course is. Within a stretch the air counts as steady.
class FlourInAir {
public:
    FlourInAir() = default;
    /// One steady air a stretch; the stretches live with the caller and come back with each question.
    FlourInAir(std::span<const Stretch> stretches, std::span<const SteadyAir> airs, Air air);

    /// A moment, with the stretch that holds it.
    struct Moment {
        double days;
        std::size_t stretch;
    };
    [[nodiscard]] std::optional<Moisture> moisture(std::span<const Stretch> stretches, Moisture start,
                                                   Moment from, Moment until) const;
    [[nodiscard]] Celsius temperature(std::span<const Stretch> stretches, Celsius start, Moment from,
                                      Moment until) const;
    /// What steady air would have done the same from one moment to a later one.
    [[nodiscard]] SteadyAir steady(std::span<const Stretch> stretches, Moment from, Moment until) const;

private:
    [[nodiscard]] bool is_dark(std::span<const Stretch> stretches, Moment from, Moment until) const;
    struct Follower {
        std::vector<double> target;   ///< by stretch
        std::vector<double> at_start; ///< by stretch: of flour that has lain there for ever
        double time_constant = 1;
        [[nodiscard]] double at(std::span<const Stretch> stretches, Moment moment) const;
        [[nodiscard]] double from_start(std::span<const Stretch> stretches, double start, Moment from,
                                        Moment until) const;
        [[nodiscard]] double steady_target(std::span<const Stretch> stretches, Moment from,
                                           Moment until) const;
    };
    static Follower following(std::span<const Stretch> stretches, std::vector<double> target,
                              double time_constant);

    Follower moisture_, warmth_;
    std::vector<double> dark_before_; ///< days of unknown humidity, at the start of each stretch
    std::vector<bool> is_dark_;       ///< by stretch
};

} // namespace mellowbin::aging
