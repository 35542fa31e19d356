#pragma once

#include "aging/outlook.h"

#include <optional>
#include <vector>

namespace mellowbin::aging {

/// What one more test of a property on a day would be worth for a lot.
struct RetestWorth {
    Property property{};
    double days_now = 0;      ///< from the day on which it is mature with 10 % to that with 90 % probability
    double days_expected = 0; ///< the same once the result is known, mean over the results that may come
    bool needs_a_first = false; ///< no comparable result yet: one alone tells nothing
    bool says_nothing = false;  ///< of the ready date, whatever it comes to: it follows a rate of its own
};

/// Days between the 10 % and the 90 % day of being mature; a day beyond the studied time counts as its end.
double ready_width(const Estimate& estimate, const CutPoints& cuts = published_cut_points());

/// By the expected narrowing, the most telling first; properties without a first result after them, and last
/// what says nothing. Drifts are not among them. The result to come is taken as normal by what the model
/// predicts, over five points.
std::vector<RetestWorth> retest_worth(const StoredFlour& flour, const Priors& priors,
                                      const Evidence& evidence, Day day,
                                      const CutPoints& cuts = published_cut_points());

/// A result against what the others predict.
struct Surprise {
    Property property{};
    std::size_t observation = 0; ///< in its series
    double standard_errors = 0;  ///< of this one from what all others say; signed
};
/// Every result of every series of two and more but of drifts, predicted from all other results of the lot.
std::vector<Surprise> surprises(const StoredFlour& flour, const Priors& priors, const Evidence& evidence);
/// From how many standard errors on a result should be checked: 3, an assumption.
double check_from();

} // namespace mellowbin::aging
