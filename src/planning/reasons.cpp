#include "planning/reasons.h"

#include "planning/assignment_words.h"
#include "planning/trouble_words.h"

#include <algorithm>

namespace mellowbin::planning {

const AssignmentReason* Reasons::of(int run, int lot) const {
    const auto found = std::find_if(assignments.begin(), assignments.end(),
                                    [&](const AssignmentReason& a) { return a.run == run && a.lot == lot; });
    return found == assignments.end() ? nullptr : &*found;
}

Reasons explain(const Problem& problem, const Plan& plan, const Background& background) {
    Reasons reasons;
    const std::vector<Use> uses = uses_of(problem, plan);
    const Evaluation evaluation = evaluate(problem, plan);
    const AssignmentWords of_assignment(problem, uses, evaluation, background);
    for (const Assignment& a : plan.assignments)
        reasons.assignments.push_back(of_assignment.reason(a));
    TroubleWords of_trouble(problem, uses, evaluation, background);
    for (int r = 0; r < problem.run_count(); ++r)
        reasons.runs.push_back(of_trouble.reason(r));
    return reasons;
}

} // namespace mellowbin::planning
