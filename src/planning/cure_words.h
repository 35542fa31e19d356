#pragma once

#include "planning/reasons.h"
#include "planning/trial.h"

#include <string>
#include <vector>

namespace mellowbin::planning {

/// What would cure a trouble of a run, each cure tried out before it is named.
class CureWords {
public:
    /// All must outlive it; the evaluation is the plan's.
    CureWords(const Problem& problem, const std::vector<Use>& uses, const Evaluation& evaluation,
              const Background& background);

    /// Adds the cures of a trouble whose kind, property and amount are there, and the latest day for an
    /// order.
    void add(Trouble& trouble, int run);

private:
    void add_releases(Trouble& trouble, int run);
    void add_locks(Trouble& trouble, int run);
    void add_order(Trouble& trouble, int run) const;
    void add_levers(Trouble& trouble, int run) const;
    [[nodiscard]] std::string order_words(const Trouble& trouble, int run) const;
    [[nodiscard]] double size_of(const Trouble& trouble, const RunResult& result) const;
    [[nodiscard]] std::string what_is_left(const Trouble& trouble, int run, const RunResult& result) const;
    [[nodiscard]] bool may_help(const Trouble& trouble, int run, int lot) const;
    [[nodiscard]] std::string lock_words(const Trouble& trouble, int run, const Lock& lock,
                                         const Tried& tried) const;

    const Problem& p_;
    const std::vector<Use>& uses_;
    const Evaluation& e_;
    const Background& background_;
    Trial trial_;
    int trials_left_;
};

} // namespace mellowbin::planning
