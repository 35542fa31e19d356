#pragma once

#include "planning/plan_lp.h"
#include "solver/clp_solver.h"

#include <algorithm>

namespace mellowbin::planning {

/// Every choice of lots for every run, each with its best tonnes by a linear programme.
class Enumeration {
public:
    explicit Enumeration(const Problem& p) : p_(p), tables_(make_tables(p)) {}

    double best() {
        choose(0);
        return best_;
    }

private:
    void choose(int run) {
        if (run == p_.run_count()) {
            const TonnesProgram program = polish_program(p_, tables_, support_);
            const LinearResult result = clp_.solve(program.program, {});
            if (result.status != LinearStatus::optimal)
                return;
            const Evaluation e = evaluate(p_, program.plan_of(p_, result.x));
            if (e.keeps_the_rules())
                best_ = std::min(best_, e.objective);
            return;
        }
        for (unsigned set = 0; set < (1U << p_.lot_count()); ++set) {
            const std::size_t before = support_.assignments.size();
            bool fits = true;
            for (int l = 0; l < p_.lot_count(); ++l) {
                if ((set >> l & 1U) == 0)
                    continue;
                fits = fits && p_.usable(l, run);
                support_.assignments.push_back({run, l, 1.0});
            }
            const auto chosen = static_cast<int>(support_.assignments.size() - before);
            if (fits && chosen <= p_.product_of(run).max_lots)
                choose(run + 1);
            support_.assignments.resize(before);
        }
    }

    const Problem& p_;
    Tables tables_;
    solver::ClpSolver clp_;
    Plan support_;
    double best_ = 1e100;
};

} // namespace mellowbin::planning
