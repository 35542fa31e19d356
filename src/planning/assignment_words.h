#pragma once

#include "planning/reasons.h"
#include "planning/trial.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::planning {

/// Why a lot stands in a run: found by taking it away and looking at what changes.
class AssignmentWords {
public:
    /// All must outlive it; the evaluation is the plan's.
    AssignmentWords(const Problem& problem, const std::vector<Use>& uses, const Evaluation& evaluation,
                    const Background& background);
    [[nodiscard]] AssignmentReason reason(const Assignment& assignment) const;

private:
    [[nodiscard]] const Lock* lock_of(const Assignment& a) const;
    void say_lock(const Assignment& a, const Lock& lock, AssignmentReason& reason) const;
    [[nodiscard]] std::string why(const Assignment& a) const;
    [[nodiscard]] std::string brings_into_window(const Assignment& a) const;
    [[nodiscard]] std::string brings_maturity(const Assignment& a) const;
    [[nodiscard]] std::string carries_on(const Assignment& a) const;
    [[nodiscard]] std::string place_in_age_and_price(const Assignment& a) const;
    [[nodiscard]] std::optional<int> passed_over(const Assignment& a) const;
    [[nodiscard]] std::string why_passed_over(const Assignment& a) const;
    [[nodiscard]] bool is_reached(int lot) const;
    void say_next_best(const Assignment& a, AssignmentReason& reason) const;
    [[nodiscard]] std::string what_it_costs(const Assignment& a, const Tried& tried,
                                            const std::vector<int>& lots) const;
    [[nodiscard]] std::string past_best_words(int run, const std::vector<int>& lots) const;
    [[nodiscard]] bool is_younger(const Assignment& a, const Use& other) const;
    [[nodiscard]] std::vector<int> suiting(int run) const;
    [[nodiscard]] RunResult judged(int run, const Use& use) const;

    const Problem& p_;
    const std::vector<Use>& uses_;
    const Evaluation& e_;
    const Background& background_;
    std::vector<std::vector<int>> next_; ///< per run: those after it on the line
    Trial trial_;
};

} // namespace mellowbin::planning
