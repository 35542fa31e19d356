#pragma once

#include "planning/cure_words.h"
#include "planning/reasons.h"

#include <string>
#include <vector>

namespace mellowbin::planning {

/// What a run lacks and which rules stand in the way.
class TroubleWords {
public:
    /// All must outlive it; the evaluation is the plan's.
    TroubleWords(const Problem& problem, const std::vector<Use>& uses, const Evaluation& evaluation,
                 const Background& background);
    [[nodiscard]] RunReason reason(int run);

private:
    [[nodiscard]] std::vector<std::string> forbidden(int run) const;
    [[nodiscard]] Trouble shortage(int run) const;
    [[nodiscard]] Trouble window(int run, int property) const;
    [[nodiscard]] Trouble maturity(int run) const;
    [[nodiscard]] std::string at_the_limit(int run) const;
    [[nodiscard]] std::vector<std::string> why_short(int run) const;
    [[nodiscard]] std::vector<int> banned(int run, Ban ban) const;
    [[nodiscard]] std::string where_it_went(int run, const std::vector<int>& lots) const;

    const Problem& p_;
    const std::vector<Use>& uses_;
    const Background& background_;
    const Evaluation& evaluation_;
    CureWords cures_;
};

} // namespace mellowbin::planning
