#pragma once

#include "aging/estimate.h"

#include <optional>
#include <string_view>
#include <vector>

namespace mellowbin::aging {

/// The states of a lot for the planner, in the order in which it goes through them.
enum class Readiness { young, usable, mature, use_first, past_best };
std::string_view name_of(Readiness readiness);

/// A day with its spread: reached by then with 10, 50 and 90 % probability. None: not within two years.
struct DaySpread {
    std::optional<Day> early, likely, late;
};

/// On which days a lot passes from one state to the next. Usable and mature from the first day they are
/// reached with `confidence`; to be used first from the day the likely age reaches its cut point; past its
/// best from the day on which that has at least the probability 1 - confidence.
struct Turns {
    std::optional<Day> usable_from, mature_from, use_first_from, past_best_from;

    /// The state on a day. What comes later in the list of states wins: flour that is past its best is not
    /// called mature.
    [[nodiscard]] Readiness state_on(Day day) const;
};

/// The confidence one wants where nobody set another: 0.8, an assumption.
double published_confidence();

/// `confidence` above 0 and below 1.
Turns turns(const Estimate& estimate, double confidence = published_confidence(),
            const CutPoints& cuts = published_cut_points());

/// All that a row about a lot shows.
struct Outlook {
    Readiness now{};               ///< on the day asked about
    double probability_mature = 0; ///< on that day
    Turns turns;
    DaySpread usable, mature, past_best;
};
Outlook outlook(const Estimate& estimate, Day day, double confidence = published_confidence(),
                const CutPoints& cuts = published_cut_points());

/// One day of the band.
struct BandDay {
    Day day;
    Readiness state{};
    double probability_mature = 0;
    double probability_past_best = 0;
};
/// State and probabilities for `days` days from `first` on.
std::vector<BandDay> band(const Estimate& estimate, Day first, int days,
                          double confidence = published_confidence(),
                          const CutPoints& cuts = published_cut_points());

/// One day of the curve: the maturity that is reached with 90, 50 and 10 % probability.
struct CurveDay {
    Day day;
    Maturity low, likely, high;
};
std::vector<CurveDay> curve(const Estimate& estimate, Day first, int days);

} // namespace mellowbin::aging
