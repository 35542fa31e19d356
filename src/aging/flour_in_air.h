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

/// How flour follows the air of a place: its moisture drifts towards equilibrium, its temperature lags
/// behind. Both are first-order; the answer to the course so far is kept at each stretch, so that a question
/// costs the same however long the course is. Within a stretch humidity and mean temperature count as
/// constant.
class FlourInAir {
public:
    FlourInAir() = default;
    /// One humidity a stretch; both live with the caller and come back with each question.
    FlourInAir(std::span<const Stretch> stretches, std::span<const std::optional<RelativeHumidity>> humidity,
               Air air);

    /// A moment, with the stretch that holds it.
    struct Moment {
        double days;
        std::size_t stretch;
    };
    [[nodiscard]] std::optional<Moisture> moisture(std::span<const Stretch> stretches, Moisture start,
                                                   Moment from, Moment until) const;
    [[nodiscard]] Celsius temperature(std::span<const Stretch> stretches, Celsius start, Moment from,
                                      Moment until) const;

private:
    struct Follower {
        std::vector<double> target;   ///< by stretch
        std::vector<double> at_start; ///< by stretch: of flour that has lain there for ever
        double time_constant = 1;
        [[nodiscard]] double at(std::span<const Stretch> stretches, Moment moment) const;
        [[nodiscard]] double from_start(std::span<const Stretch> stretches, double start, Moment from,
                                        Moment until) const;
    };
    static Follower following(std::span<const Stretch> stretches, std::vector<double> target,
                              double time_constant);

    Follower moisture_, warmth_;
    std::vector<double> dark_before_; ///< days of unknown humidity, at the start of each stretch
    std::vector<bool> is_dark_;       ///< by stretch
};

} // namespace mellowbin::aging
