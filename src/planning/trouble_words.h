#pragma once

#include "planning/reasons.h"

#include <string>
#include <vector>

namespace mellowbin::planning {

/// What a run lacks and which rules stand in the way.
class TroubleWords {
public:
    TroubleWords(const Problem& problem, const Plan& plan, const std::vector<Use>& uses,
                 const Background& background);
    [[nodiscard]] RunReason reason(int run) const;

private:
    [[nodiscard]] std::vector<std::string> forbidden(int run) const;
    [[nodiscard]] Trouble shortage(int run) const;
    [[nodiscard]] Trouble window(int run, int property) const;
    [[nodiscard]] Trouble maturity(int run) const;
    [[nodiscard]] std::vector<std::string> why_short(int run) const;
    [[nodiscard]] std::vector<std::string> cures_of_shortage(int run) const;
    void add_order(Trouble& trouble, int run, double tonnes) const;
    [[nodiscard]] std::vector<int> banned(int run, Ban ban) const;
    [[nodiscard]] std::string where_it_went(int run, const std::vector<int>& lots) const;

    const Problem& p_;
    const std::vector<Use>& uses_;
    const Background& background_;
    Evaluation evaluation_;
};

} // namespace mellowbin::planning
