#pragma once

#include "core/quantity.h"

#include <span>
#include <vector>

namespace mellowbin::dough {

/// What the doughs of one flour took beside its farinograph, by one process in one season.
struct OffsetSeen {
    std::size_t process = 0; ///< any numbers, one a process
    int season = 0;          ///< any numbers, one a crop
    AbsorptionPoints offset;
    double error_variance = 0; ///< of `offset`, points squared: scatter of its batches over their number
};

/// How far offsets lie apart, standard deviations in points.
struct OffsetSpreads {
    double process = 0;
    double season = 0; ///< of the middle 80 %: now and then a season lies much farther away
    double flour = 0;
};
OffsetSpreads assumed_offset_spreads(); ///< before any batch; from the literature table

/// What a process is believed to take in a season that nothing is known of.
struct SeasonForecast {
    AbsorptionPoints offset;
    double sd = 0; ///< points, for a single flour; offset ± to_10_and_90 sd is the interval of 80 %
};

/// Offsets of processes over seasons and flours: offset = mean + process + season + flour, all but the mean
/// normal with a spread of its own, a season by Student's t of four degrees of freedom so that one odd crop
/// does not set what is expected of the next. The spreads are learned with the offsets (restricted
/// likelihood, by expectation and maximisation), each beginning at the assumed one with the worth of two
/// observations. Pure; the order of what was seen does not matter.
class SeasonedOffsets {
public:
    explicit SeasonedOffsets(std::span<const OffsetSeen> seen,
                             const OffsetSpreads& assumed = assumed_offset_spreads());

    /// A process that was never seen is one of its kind: the mean, and the spread of processes.
    [[nodiscard]] SeasonForecast in_a_new_season(std::size_t process) const;
    [[nodiscard]] const OffsetSpreads& spreads() const { return spreads_; }

private:
    struct Known {
        std::size_t process = 0;
        AbsorptionPoints offset;
        double variance = 0; ///< of the offset in the middle of all seasons
    };
    std::vector<Known> known_;
    SeasonForecast new_process_;
    OffsetSpreads spreads_;
};

} // namespace mellowbin::dough
