#include "planning/supports.h"

#include "planning/plan_lp.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace mellowbin::planning {

namespace {

class Supports {
public:
    Supports(const Problem& problem, const Tables& tables, LinearSolver& solver, JudgedPlan& judged,
             const std::stop_token& stop)
        : problem_(problem), tables_(tables), solver_(solver), judged_(judged), stop_(stop) {}

    void improve() {
        for (bool better = true; better && !stop_.stop_requested();) {
            better = false;
            for (const RunTable& run : tables_.runs)
                if (run.fill_t > 0 && run.batch_share <= 0)
                    for (const int lot : run.lot)
                        better = better_with(run, lot) || better;
        }
    }

private:
    [[nodiscard]] std::vector<int> free_lots(const RunTable& run) const {
        std::vector<int> lots;
        for (const Assignment& a : judged_.plan().assignments)
            if (a.run == run.run && std::find(run.lot.begin(), run.lot.end(), a.lot) != run.lot.end())
                lots.push_back(a.lot);
        return lots;
    }

    /// The lot comes in, alone or in place of another; one that is there goes.
    bool better_with(const RunTable& run, int lot) {
        const std::vector<int> has = free_lots(run);
        if (std::find(has.begin(), has.end(), lot) != has.end())
            return judge(run.run, lot, -1);
        bool better = static_cast<int>(has.size()) < run.max_free_lots && judge(run.run, -1, lot);
        for (const int other : has)
            better = better || judge(run.run, other, lot);
        return better;
    }

    bool judge(int run, int without, int with) {
        if (stop_.stop_requested())
            return false;
        Plan support = judged_.plan();
        std::erase_if(support.assignments,
                      [&](const Assignment& a) { return a.run == run && a.lot == without; });
        if (with >= 0)
            support.assignments.push_back({run, with, 0.0});
        const TonnesProgram tonnes = polish_program(problem_, tables_, support);
        const LinearResult result = solver_.solve(tonnes.program, stop_);
        if (result.status != LinearStatus::optimal)
            return false;
        const double before = judged_.outcome().evaluation.objective;
        judged_.adopt_if_better(tonnes.plan_of(problem_, result.x));
        return judged_.outcome().evaluation.objective < before - 1e-4;
    }

    const Problem& problem_;
    const Tables& tables_;
    LinearSolver& solver_;
    JudgedPlan& judged_;
    const std::stop_token& stop_;
};

} // namespace

void improve_supports(const Problem& problem, const Tables& tables, LinearSolver& solver, JudgedPlan& judged,
                      const std::stop_token& stop) {
    Supports(problem, tables, solver, judged, stop).improve();
}

} // namespace mellowbin::planning
