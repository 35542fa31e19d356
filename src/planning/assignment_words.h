#pragma once

#include "planning/draft.h"
#include "planning/reasons.h"

#include <string>
#include <vector>

namespace mellowbin::planning {

/// Why a lot stands in a run: found by taking it away and looking at what changes.
class AssignmentWords {
public:
    AssignmentWords(const Problem& problem, const Plan& plan, const std::vector<Use>& uses,
                    const Background& background);
    AssignmentReason reason(const Assignment& assignment);

private:
    [[nodiscard]] std::string kept(const Assignment& a) const;
    [[nodiscard]] std::string why(const Assignment& a) const;
    [[nodiscard]] std::string brings_into_window(const Assignment& a) const;
    [[nodiscard]] std::string brings_maturity(const Assignment& a) const;
    [[nodiscard]] std::string carries_on(const Assignment& a) const;
    [[nodiscard]] std::string place_in_age_and_price(const Assignment& a) const;
    [[nodiscard]] std::string next_best(const Assignment& a);
    [[nodiscard]] std::vector<int> suiting(int run) const;
    [[nodiscard]] RunResult judged(int run, const Use& use) const;

    const Problem& p_;
    const std::vector<Use>& uses_;
    const Background& background_;
    Tables tables_;
    Draft draft_;
};

} // namespace mellowbin::planning
